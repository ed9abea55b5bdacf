/** The sender of this process: looks at the outbox when something was queued, and whenever something comes due. */
import { database } from '../database/open.ts';
import { log } from '../log.ts';
import { recordStore } from './record-settings.ts';
import { senderIn, type Sender } from './sender.ts';
import { statementsFile, statementsFileAt } from './statements-file.ts';

/** A look at least so often: another process may have queued something. */
const lookEveryMs = 60_000;

let sender: Sender | undefined;
let running: Promise<void> | undefined;
let again = false;
let timer: NodeJS.Timeout | undefined;
let stop = new AbortController();

/** Sends what waits, in the background. Called while it runs, it looks once more afterwards. */
export function sendSoon(): void {
	again = true;
	running ??= run().finally(() => (running = undefined));
}

async function run(): Promise<void> {
	clearTimeout(timer);
	while (again && !stop.signal.aborted) {
		again = false;
		try {
			sender ??= senderIn(database(), { store: recordStore(), file: statementsFileAt(statementsFile()) });
			await sender.pass(stop.signal);
		} catch (error) {
			log.error({ error: String(error) }, 'Statements for the record store could not be sent; the next look tries again.');
		}
	}
	if (!stop.signal.aborted) lookLater();
}

function lookLater(): void {
	const next = sender?.nextAt() ?? null;
	const wait = next === null ? lookEveryMs : Math.min(lookEveryMs, Math.max(0, next - Date.now()));
	timer = setTimeout(sendSoon, wait).unref();
}

/** Ends it: what is on its way is sent again at the next start, which harms nothing. */
export async function endSending(): Promise<void> {
	stop.abort();
	clearTimeout(timer);
	await running;
	[sender, stop] = [undefined, new AbortController()];
}
