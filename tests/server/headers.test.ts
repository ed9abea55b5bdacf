import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runServer, type RunningServer } from '../running-server.ts';
import { Visitor } from '../visitor.ts';

const folder = mkdtempSync(join(tmpdir(), 'provewell-headers-'));
let server: RunningServer;
beforeAll(async () => {
	server = await runServer(folder);
});
afterAll(async () => {
	await server.end();
	rmSync(folder, { recursive: true, force: true });
});

describe('every answer', () => {
	it('forbids what a page of ours never needs', async () => {
		for (const path of ['/', '/no-such-page']) {
			const { headers } = await new Visitor(server.address).get(path);
			expect(headers).toMatch(/^x-content-type-options: nosniff$/m);
			expect(headers).toMatch(/^x-frame-options: DENY$/m);
			expect(headers).toMatch(/^cache-control: private, no-store$/m);
			const policy = /^content-security-policy: (.*)$/m.exec(headers)![1]!;
			expect(policy).toContain("frame-ancestors 'none'");
			expect(/script-src ([^;]*)/.exec(policy)![1]).not.toContain('unsafe');
		}
	});

	it('sets no cookie on a visitor who only looks', async () => {
		const visitor = new Visitor(server.address);
		expect((await visitor.get('/')).status).toBe(200);
		expect(visitor.cookies.size).toBe(0);
	});

	it('tells nothing of the inside when a page is missing', async () => {
		const { status, body } = await new Visitor(server.address).get('/no-such-page');
		expect(status).toBe(404);
		expect(body).toContain('There is no such page here.');
		expect(body).not.toMatch(/node_modules|at \w+ \(|\.ts:\d/);
	});

	it('refuses a form sent from another site', async () => {
		const { status } = await new Visitor(server.address).post('/', {}, 'http://elsewhere.example');
		expect(status).toBe(403);
	});
});
