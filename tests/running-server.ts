import { spawn } from 'node:child_process';
import { once } from 'node:events';

/** The built app as its own process, as `npm start` runs it. */
export interface RunningServer {
	readonly address: string;
	readonly pid: number;
	/** Everything it wrote on standard output. */
	readonly said: () => string;
	/** Everything it wrote on standard error. */
	readonly errors: () => string;
	/** Ends it and waits until it has ended. @returns its exit code, null when the signal ended it */
	readonly end: (signal?: NodeJS.Signals) => Promise<number | null>;
}

/**
 * Starts the server with a data folder and a free port, or the port given.
 * @param command  how it is started, `npm start` or what that runs
 * @param settings  further variables
 * @throws Error with what it wrote when it ends before it has printed its address
 */
export async function runServer(
	dataFolder: string,
	port = 0,
	command = [process.execPath, 'scripts/start.mjs'],
	settings: Record<string, string> = {}
): Promise<RunningServer> {
	const child = spawn(command[0]!, command.slice(1), {
		env: {
			...process.env,
			PORT: String(port),
			HOST: '127.0.0.1',
			PROVEWELL_DATA: dataFolder,
			PROVEWELL_LOG: 'warn',
			PROVEWELL_DEMO: 'visits',
			NODE_ENV: 'production',
			...settings
		},
		stdio: ['ignore', 'pipe', 'pipe']
	});
	const ended = once(child, 'exit').then(([code]) => code as number | null);
	let errors = '';
	child.stderr.setEncoding('utf8').on('data', (text: string) => (errors += text));
	let said = '';
	const address = await new Promise<string>((found, failed) => {
		child.stdout.setEncoding('utf8').on('data', (text: string) => {
			said += text;
			const match = /^Provewell is at (\S+)$/m.exec(said);
			if (match) found(match[1]!);
		});
		void ended.then((code) => failed(new Error(`exit ${code}: ${errors.trim()}`)));
	});
	return {
		address,
		pid: child.pid!,
		said: () => said,
		errors: () => errors,
		end: (signal = 'SIGTERM') => {
			child.kill(signal);
			return ended;
		}
	};
}
