/** Starts the app as `npm start` does, on a free port, for the scripts that look at it. */
import { spawn } from 'node:child_process';
import { createServer } from 'node:net';
import { root } from './make-ready.mjs';

/**
 * @param {string} data  its data folder
 * @returns {Promise<{ address: string, said: () => string, end: () => Promise<void> }>} when it answers; what it has said holds the owner's link
 */
export async function startServer(data) {
	const port = await freePort();
	const address = `http://127.0.0.1:${port}`;
	const server = spawn(process.execPath, ['scripts/start.mjs'], {
		cwd: root,
		env: { ...process.env, PORT: String(port), HOST: '127.0.0.1', PROVEWELL_DATA: data, PROVEWELL_LOG: 'warn' },
		stdio: ['ignore', 'pipe', 'inherit']
	});
	let said = '';
	server.stdout.setEncoding('utf8').on('data', (text) => (said += text));
	const ended = new Promise((done) => server.once('exit', done));
	await answers(`${address}/health`, server);
	return {
		address,
		said: () => said,
		end: async () => {
			server.kill('SIGTERM');
			await ended;
		}
	};
}

async function answers(url, server) {
	for (let tries = 0; tries < 600; tries++) {
		const answer = await fetch(url).catch(() => null);
		if (answer?.ok) return;
		if (server.exitCode !== null) throw new Error(`the server ended with code ${server.exitCode} before it answered`);
		await new Promise((resolve) => setTimeout(resolve, 200));
	}
	throw new Error(`${url} does not answer`);
}

/** @returns {Promise<number>} */
function freePort() {
	return new Promise((found) => {
		const probe = createServer().listen(0, '127.0.0.1', () => {
			const { port } = probe.address();
			probe.close(() => found(port));
		});
	});
}
