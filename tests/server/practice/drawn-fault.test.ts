/** The fault that a seed drew is kept at the start, so that a page need not make the callout again to know it; and no page or file tells it. */
import { eq } from 'drizzle-orm';
import { describe, expect, it } from 'vitest';
import { exportOf } from '$lib/server/accounts/index.ts';
import { callouts } from '$lib/server/callouts/callouts.ts';
import { database } from '$lib/server/database/open.ts';
import { attempt } from '$lib/server/database/schema.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { playedIn } from '$lib/server/practice/played.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { begun } from '../fresh.ts';
import { oneServer, someoneWho } from './someone-practised.ts';

oneServer();
const [pack] = packs().values();
const drawnBy = (seed: number) => makeCallout(pack!, seed).fault!.id;
const rowOf = (id: string) => database().select().from(attempt).where(eq(attempt.id, id)).get()!;
const change = (id: string, values: Partial<typeof attempt.$inferInsert>) =>
	void database().update(attempt).set(values).where(eq(attempt.id, id)).run();
const metBy = (learnerId: string) => playedIn(database(), packs(), new Map())(learnerId, Date.now()).map(({ what }) => what);

describe('the fault that a seed drew', () => {
	it('is kept at the start; one that was asked for is in its own column alone', () => {
		const id = someoneWho();
		const asked = pack!.faults.find((fault) => fault.id !== drawnBy(11))!.id;
		expect(rowOf(begun(callouts(), id, { seed: 11 }).attemptId)).toMatchObject({ fault: null, drawn: drawnBy(11) });
		expect(rowOf(begun(callouts(), id, { seed: 11, fault: asked }).attemptId)).toMatchObject({ fault: asked, drawn: null });
		expect(metBy(id).toSorted()).toEqual([asked, drawnBy(11)].toSorted());
	});

	it('is made of an older row once and written back, and read from the row from then on', () => {
		const id = someoneWho();
		const { attemptId } = begun(callouts(), id, { seed: 12 });
		change(attemptId, { drawn: null });
		expect(metBy(id)).toEqual([drawnBy(12)]);
		expect(rowOf(attemptId).drawn).toBe(drawnBy(12));
		// Another than the seed draws, as no row would have it: what comes back was read and not made.
		const other = pack!.faults.find((fault) => fault.id !== drawnBy(12))!.id;
		change(attemptId, { drawn: other });
		expect(metBy(id)).toEqual([other]);
	});

	it('is not told by the export while the callout runs, and is once it has ended', () => {
		const id = someoneWho();
		const { attemptId, seq } = begun(callouts(), id, { seed: 13 });
		const running = [...exportOf(id, {})].join('');
		expect(running).toContain(attemptId);
		expect(running).not.toMatch(/"(drawn|fault)":/);
		expect(running).not.toContain(drawnBy(13));
		callouts().act(attemptId, id, { kind: 'leave', told: [] }, seq);
		expect(JSON.parse([...exportOf(id, {})].join('')).attempts).toMatchObject([{ id: attemptId, fault: null, drawn: drawnBy(13) }]);
	});
});
