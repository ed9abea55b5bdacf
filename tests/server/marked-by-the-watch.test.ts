import { afterEach, expect, it, vi } from 'vitest';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { sitting } from '$lib/server/database/schema.ts';
import { watchSittings } from '$lib/server/sittings/watch.ts';
import { layPaper, sit } from '../sat.ts';
import { freshFolder } from './fresh.ts';

afterEach(() => {
	vi.useRealTimers();
	closeDatabase();
});

it('a closed sitting that has no marks gets them without a restart, within two minutes', async () => {
	vi.stubEnv('PROVEWELL_DATA', freshFolder());
	const db = database();
	sit(db, layPaper(db), { paths: [null, null] });
	const isMarked = () => db.select().from(sitting).get()!.marked !== null;
	vi.useFakeTimers();
	watchSittings(db);
	await vi.advanceTimersByTimeAsync(10_000);
	expect(isMarked()).toBe(false);
	await vi.advanceTimersByTimeAsync(110_000);
	expect(isMarked()).toBe(true);
});
