import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { auditEntry } from '$lib/server/database/schema.ts';
import { GET as items } from '../../src/routes/cohorts/[cohort]/papers/[paper]/statistics/items.csv/+server.ts';
import { GET as sheets } from '../../src/routes/cohorts/[cohort]/papers/[paper]/sheets/[file].csv/+server.ts';
import { layPaper } from '../sat.ts';
import { freshFolder } from './fresh.ts';

beforeEach(() => vi.stubEnv('PROVEWELL_DATA', freshFolder()));
afterEach(closeDatabase);

it('a file of marks stands in the trail as taken out when it is fetched, and not when its head alone is asked for', async () => {
	const { assessor, cohort, paper } = layPaper(database());
	const files = [
		(event: object) => sheets({ ...event, params: { cohort, paper, file: 'results' } } as never),
		(event: object) => items({ ...event, params: { cohort, paper } } as never)
	];
	const told = () => database().select().from(auditEntry).all().length;
	for (const [at, file] of files.entries()) {
		const ask = async (method: string) => file({ locals: { learner: { id: assessor } }, request: new Request('http://here', { method }) });
		expect((await ask('HEAD')).status).toBe(200);
		expect(told()).toBe(at);
		expect((await ask('GET')).status).toBe(200);
		expect(told()).toBe(at + 1);
	}
});
