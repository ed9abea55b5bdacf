import pino from 'pino';

/** One line of JSON an event, on standard error, so that standard output keeps the one line with the address. */
export const log = pino({ level: process.env.PROVEWELL_LOG || 'info', base: null }, pino.destination({ dest: 2, sync: true }));
