import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Driver from 'better-sqlite3';
import { expect, it, onTestFinished } from 'vitest';
import { runServer } from '../running-server.ts';

function freshFolder(): string {
	const folder = mkdtempSync(join(tmpdir(), 'provewell-start-'));
	onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
	return folder;
}

/** What a start that must not succeed says; one line. */
async function refusal(folder: string, port = 0, settings: Record<string, string> = {}): Promise<string> {
	const server = await runServer(folder, port, undefined, settings).catch((error: Error) => error);
	if (!(server instanceof Error)) {
		await server.end();
		throw new Error('It started.');
	}
	return server.message;
}

it('says so when the port is in use, and leaves the data folder alone', async () => {
	const taken = createServer().listen(0, '127.0.0.1');
	onTestFinished(() => void taken.close());
	await new Promise((listening) => taken.once('listening', listening));
	const { port } = taken.address() as AddressInfo;
	const folder = freshFolder();
	expect(await refusal(folder, port)).toMatch(new RegExp(`^exit 1: Port ${port} on 127\\.0\\.0\\.1 is in use\\..*$`));
	expect(readdirSync(folder)).toEqual([]);
});

it('says so when the port is no port', async () => {
	expect(await refusal(freshFolder(), 70_000)).toMatch(/^exit 1: PORT must be a whole number from 0 to 65535; it is "70000"\.$/);
});

it.each([
	['PORT', '1e3', /^exit 1: PORT must be a whole number from 0 to 65535; it is "1e3"\.$/],
	['PORT', '0x50', /^exit 1: PORT must be .* "0x50"\.$/],
	['PORT', ' 80', /^exit 1: PORT must be .* " 80"\.$/],
	['PORT', '-1', /^exit 1: PORT must be .* "-1"\.$/],
	['ORIGIN', 'provewell', /^exit 1: ORIGIN must be an address such as https:\/\/\S+; it is "provewell"\.$/],
	['ORIGIN', 'ftp://provewell.example', /^exit 1: ORIGIN must be .*$/],
	['ORIGIN', 'https://provewell.example/path', /^exit 1: ORIGIN must be .*$/],
	['PROVEWELL_LOG', 'loud', /^exit 1: PROVEWELL_LOG must be one of error, warn, info, debug; it is "loud"\.$/],
	['PROVEWELL_SCENARIOS', '/no/such/folder', /^exit 1: There is no folder \/no\/such\/folder to read scenarios from; .*$/]
])('says in one line what is wrong with %s="%s"', async (name, value, says) => {
	expect(await refusal(freshFolder(), 0, { [name]: value })).toMatch(says);
});

it('takes an empty setting as none', async () => {
	const server = await runServer(freshFolder(), 0, undefined, { PROVEWELL_SCENARIOS: '', ORIGIN: '', PROVEWELL_LOG: '' });
	expect((await fetch(server.address)).status).toBe(200);
	expect(await server.end()).toBe(0);
});

it.runIf(existsSync('/proc'))('says so when the data folder cannot be made', async () => {
	expect(await refusal('/proc/foo')).toMatch(/^exit 1: The data folder \/proc\/foo cannot be used: .*$/);
	expect(await refusal('/proc/foo/bar')).toMatch(/^exit 1: The data folder \/proc\/foo\/bar cannot be used: .*$/);
});

it('says so when the data folder is a file', async () => {
	const file = join(freshFolder(), 'file');
	writeFileSync(file, 'not a folder');
	expect(await refusal(file)).toMatch(/^exit 1: The data folder .*file cannot be used: .*$/);
});

it('says so when the database is damaged, and leaves it as it was', async () => {
	const folder = freshFolder();
	const file = join(folder, 'provewell.sqlite');
	const text = 'this is no database, only text that stands where one should be. '.repeat(100);
	writeFileSync(file, text);
	expect(await refusal(folder)).toMatch(/^exit 1: The database .*provewell\.sqlite is damaged or is no database; .*$/);
	expect(readFileSync(file, 'utf8')).toBe(text);
});

it('says so when another program holds the database', async () => {
	const folder = freshFolder();
	const holder = new Driver(join(folder, 'provewell.sqlite'));
	onTestFinished(() => void holder.close());
	holder.exec('create table held (x); begin exclusive; insert into held values (1)');
	expect(await refusal(folder)).toMatch(/^exit 1: The database .*provewell\.sqlite is locked by another program; .*$/);
});

it('ends at once and cleanly when told to, and starts again on the same folder', async () => {
	const folder = freshFolder();
	for (const signal of ['SIGTERM', 'SIGINT'] as const) {
		const server = await runServer(folder);
		expect(await (await fetch(`${server.address}/health`)).json()).toEqual({ well: true });
		expect(await server.end(signal)).toBe(0);
		await expect(fetch(`${server.address}/health`)).rejects.toThrow();
		expect(server.errors()).toBe('');
	}
});

it('is gone when npm, which started it, has been told to end', async () => {
	const server = await runServer(freshFolder(), 0, ['npm', 'start']);
	await server.end('SIGTERM');
	await expect
		.poll(
			() =>
				fetch(`${server.address}/health`).then(
					() => 'answers',
					() => 'gone'
				),
			{ timeout: 10_000 }
		)
		.toBe('gone');
});
