/** A server that has only one appliance family in stock: there is nothing to compare with. */
import { cpSync } from 'node:fs';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { packs } from '$lib/server/packs/packs.ts';
import { scenariosFolder } from '$lib/server/packs/read-scenarios.ts';
import { runServer, type RunningServer } from '../../running-server.ts';
import { makeDataFolder, removeFolder } from '../../test-data.ts';
import { Visitor } from '../../visitor.ts';

const folder = makeDataFolder();
const [only, ...others] = [...packs().values()].map(({ family }) => family);
let server: RunningServer;
beforeAll(async () => {
	const scenarios = join(folder, 'scenarios');
	const left = others.map(({ id }) => `${id}.yaml`);
	cpSync(scenariosFolder(), scenarios, { recursive: true, filter: (file) => !left.includes(basename(file)) });
	server = await runServer(folder, 0, undefined, { PROVEWELL_SCENARIOS: scenarios });
});
afterAll(async () => {
	await server.end();
	removeFolder(folder);
});

it('says that there is nothing to compare with yet, and asks for no choice', async () => {
	const visitor = new Visitor(server.address);
	const { status, body } = await visitor.get('/refresher');
	expect(status).toBe(200);
	expect(body).toContain('There is only one appliance family in stock here, so there is nothing to compare it with yet.');
	expect(body).toContain(`/families/${only!.id}`);
	expect(body).not.toContain('Show what differs');
	expect((await visitor.get(`/refresher/${only!.id}`)).headers).toContain(`location: /refresher?met=${only!.id}`);
	expect((await visitor.get(`/refresher/${others[0]!.id}?known=${only!.id}`)).status).toBe(404);
});

it('takes a broken form for what it is', async () => {
	const visitor = new Visitor(server.address);
	expect((await visitor.post('/refresher?/choose', {})).status).toBe(400);
	expect((await visitor.post('/refresher?/choose', { met: only!.id, known: only!.id })).status).toBe(400);
	expect((await visitor.send(`/refresher/${only!.id}?/begin`, '{}', 'application/json')).status).toBeGreaterThanOrEqual(400);
	const begun = await visitor.post(`/refresher/${only!.id}?/begin`, { known: others[0]!.id });
	expect([begun.status, begun.headers]).toEqual([303, expect.stringContaining('location: /refresher?met=')]);
	expect((await visitor.post('/refresher/gone?/begin', { known: only!.id })).status).toBe(404);
});
