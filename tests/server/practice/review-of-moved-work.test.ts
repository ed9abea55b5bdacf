/** While what a callout or a drill showed is being worked out, its guest signs in and the work becomes an account's. */
import { describe, expect, it, vi } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { review } from '$lib/server/database/schema.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import { firstFamily } from '../fresh.ts';
import { leaveAtOnce, monday, practising, sums, type Practising } from './practising.ts';

/** Everything of the guest is from then on the account's, and the guest is gone. */
function signsIn({ db, learnerId }: Practising): string {
	const { id } = addLearner({ guest: false, invented: false }, db);
	for (const table of ['attempt', 'drill', 'review', 'round'])
		db.$client.prepare(`update ${table} set learner = ? where learner = ?`).run(id, learnerId);
	db.$client.prepare('delete from learner where id = ?').run(learnerId);
	return id;
}
const logOf = ({ db }: Practising) => db.select().from(review).all();

function ended(one: Practising): string {
	const started = one.callouts.start(one.learnerId, { family: firstFamily(), seed: 5 }, monday);
	if (started.outcome !== 'started') throw new Error(started.says);
	leaveAtOnce(one, started.attemptId, one.learnerId, monday);
	return started.attemptId;
}

/** The debrief is ready, and before it is handed over this happens. */
function beforeTheDebrief({ callouts }: Practising, happens: () => void): void {
	const { debrief } = callouts;
	vi.spyOn(callouts, 'debrief').mockImplementationOnce(async (...given) => {
		const debriefed = await debrief.apply(callouts, given);
		happens();
		return debriefed;
	});
}

describe('what a callout showed', () => {
	it('is the account’s whose work it has become', async () => {
		const one = practising();
		const id = ended(one);
		let account = '';
		beforeTheDebrief(one, () => (account = signsIn(one)));
		await one.practice.reviews.settle(id);
		expect(logOf(one)).toMatchObject([{ learner: account, attempt: id }]);
		expect(one.practice.memories.of(account).size).toBe(1);
	});

	it('is nobody’s where the guest has gone with all that was theirs', async () => {
		const one = practising();
		const id = ended(one);
		beforeTheDebrief(one, () => void one.db.$client.prepare('delete from learner where id = ?').run(one.learnerId));
		await one.practice.reviews.settle(id);
		expect(logOf(one)).toEqual([]);
	});
});

describe('what a drill showed', () => {
	/** A drill that is not at hand any more when its answer comes, and is made again meanwhile. */
	async function answeredWhile(happens: (one: Practising) => void) {
		let isAgain = false;
		const [, sum] = [...sums][0]!;
		const watched: Generator = {
			...sum,
			make(ground, seed) {
				if (isAgain) happens(one);
				return sum.make(ground, seed);
			}
		};
		const one: Practising = practising({ generators: new Map([[watched.id, watched]]) });
		const asked = await one.practice.drills.askKind(one.learnerId, watched.drill, monday);
		if (asked.outcome !== 'asked') throw new Error(asked.outcome);
		isAgain = true;
		const { drills } = one.again().practice;
		const answered = await drills.answer(asked.id, one.learnerId, { written: '1' }, monday + 1000);
		return { one, id: asked.id, answered };
	}

	it('is the account’s whose work it has become', async () => {
		let account = '';
		const { one, id, answered } = await answeredWhile((practising) => (account = signsIn(practising)));
		expect(answered.outcome).toBe('answered');
		expect(logOf(one)).toMatchObject([{ learner: account, drill: id }]);
	});

	it('is nobody’s where the guest has gone with all that was theirs', async () => {
		const { one, answered } = await answeredWhile(({ db, learnerId }) => {
			db.$client.prepare('delete from learner where id = ?').run(learnerId);
		});
		expect(answered.outcome).toBe('missing');
		expect(logOf(one)).toEqual([]);
	});
});
