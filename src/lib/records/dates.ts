/** Dates as a record says them: the same words on the server and in any browser. */
const parts = { day: 'numeric', month: 'long', year: 'numeric' } as const;

/** A date of the calendar, `2026-03-29`, in words. */
export const dateWords = (date: string): string => new Intl.DateTimeFormat('en-GB', { ...parts, timeZone: 'UTC' }).format(new Date(date));

/** The date that a zone's calendar shows. @param zone IANA name */
export const dayWords = (at: Date, zone: string): string => new Intl.DateTimeFormat('en-GB', { ...parts, timeZone: zone }).format(at);
