import { describe, expect, it } from 'vitest';
import type { Action } from '#shared/callout/action.ts';
import { gapsOf } from '#shared/marking/gap.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { areaSkillId } from '#shared/review/skills.ts';
import type { Callouts } from '$lib/server/callouts/callouts.ts';
import { coachingAt } from '$lib/server/callouts/coaching.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { memoriesIn } from '$lib/server/practice/memories.ts';
import { reviewsIn } from '$lib/server/practice/reviews.ts';
import { reviewLogIn } from '$lib/server/database/review-log.ts';
import { begun, firstFamily, freshService } from './fresh.ts';

const pack = packs().get(firstFamily())!;
const check: Action = { kind: 'check', check: 'measure-tap-temperature' };
const suspects = pack.faults.slice(0, 2).map(({ id }) => id);
const predict: Action = {
	kind: 'predict',
	check: 'measure-tap-temperature',
	expects: suspects.map((fault) => ({ fault, reads: 'lower' }))
};
const demand: Action = { kind: 'demand', demand: 'tap' };

/** A callout at the open tap. */
function atTheTap(callouts: Callouts, learnerId: string, choice: Parameters<typeof begun>[2] = { seed: 7 }): string {
	const { attemptId } = begun(callouts, learnerId, choice);
	callouts.act(attemptId, learnerId, demand, 0);
	return attemptId;
}
const kinds = (callouts: Callouts, id: string, learnerId: string) => callouts.load(id, learnerId)!.view.events.map(({ kind }) => kind);

describe('a prediction and its check in one request', () => {
	it('are two actions of the path, and done once however often they are sent', () => {
		const { callouts, learnerId, again } = freshService();
		const id = atTheTap(callouts, learnerId);
		const first = callouts.actInTurn(id, learnerId, [predict, check], 1);
		expect(first).toMatchObject({ outcome: 'done', seq: 3 });
		for (const service of [callouts, again()]) {
			expect(service.actInTurn(id, learnerId, [predict, check], 1)).toEqual(first);
			expect(kinds(service, id, learnerId)).toEqual(['demand', 'predict', 'check']);
		}
	});

	it('go on after a crash between the two', () => {
		const { callouts, learnerId, again } = freshService();
		const id = atTheTap(callouts, learnerId);
		callouts.act(id, learnerId, predict, 1);
		const after = again();
		expect(after.load(id, learnerId)!.view.predictions).toMatchObject([{ observed: null, lapsed: false }]);
		expect(after.actInTurn(id, learnerId, [predict, check], 1)).toMatchObject({ outcome: 'done', seq: 3 });
		expect(after.load(id, learnerId)!.view.predictions).toMatchObject([{ observed: 2 }]);
	});

	it('do nothing where the callout moved on, and stop at what is refused', () => {
		const { callouts, learnerId } = freshService();
		const id = atTheTap(callouts, learnerId);
		callouts.act(id, learnerId, { kind: 'note', text: 'in another tab' }, 1);
		expect(callouts.actInTurn(id, learnerId, [predict, check], 1)).toMatchObject({ outcome: 'conflict', seq: 2 });
		expect(callouts.actInTurn(id, learnerId, [predict, check], NaN)).toMatchObject({ outcome: 'conflict', seq: 2 });
		const twice = { ...predict, expects: [0, 1].map(() => ({ fault: suspects[0], reads: 'lower' })) };
		expect(callouts.actInTurn(id, learnerId, [twice, check], 2)).toMatchObject({ outcome: 'refused', seq: 2 });
		expect(callouts.actInTurn(id, learnerId, [{ kind: 'predict' }, check], 2)).toMatchObject({ outcome: 'invalid', seq: 2 });
		expect(kinds(callouts, id, learnerId)).toEqual(['demand', 'note']);
	});
});

describe('coaching', () => {
	it('gives the gaps of what was predicted, as the core has them, and none to another learner', async () => {
		const { callouts, learnerId } = freshService();
		const id = atTheTap(callouts, learnerId, { seed: 7, fault: suspects[0]! });
		const table = await evidenceFor(pack);
		expect(await callouts.gaps(id, learnerId)).toEqual([]);
		callouts.actInTurn(id, learnerId, [predict, check], 1);
		const state = replay(makeCallout(pack, 7, suspects[0]), [demand, predict, check]);
		const gaps = gapsOf(pack, state, table);
		expect(gaps).toHaveLength(1);
		expect(await callouts.gaps(id, learnerId)).toEqual(gaps);
		expect(await callouts.gaps(id, 'someone-else')).toEqual([]);
	});

	it('asks by the checks taken, and does not count one that was stopped', () => {
		const { callouts, learnerId } = freshService();
		const id = begun(callouts, learnerId, { seed: 7 }).attemptId;
		const asks = (stability: number) => coachingAt(callouts.load(id, learnerId)!.view, [stability]).asks;
		expect([1, 10, 30, 100].map(asks)).toEqual([true, true, true, false]);
		callouts.act(id, learnerId, { kind: 'check', check: 'look-inlet-filter' }, 0);
		expect(callouts.load(id, learnerId)!.view.events.at(-1)!.breaches.length).toBeGreaterThan(0);
		expect(asks(10)).toBe(true);
		callouts.act(id, learnerId, demand, 1);
		callouts.act(id, learnerId, check, 2);
		expect([1, 10, 30, 100].map(asks)).toEqual([true, false, false, false]);
	});

	it('lets a skill be shown no better than laboured once a gap was there to see', async () => {
		const { callouts, learnerId, db } = freshService();
		const memories = memoriesIn(db);
		const reviews = reviewsIn(db, callouts, memories);
		await evidenceFor(pack);
		const shown: string[] = [];
		for (const coached of [false, true]) {
			const id = await soundly(callouts, learnerId, coached);
			const made = await callouts.debrief(id, learnerId);
			if (made.outcome !== 'debriefed') throw new Error(made.outcome);
			expect(['sound', 'fluent']).toContain(made.debrief.sheet.recall);
			expect(made.debrief.gaps.length > 0).toBe(coached);
			await reviews.settle(id);
			const main = areaSkillId(firstFamily(), made.debrief.fault.area);
			shown.push(
				...reviewLogIn(db)
					.ofAttempt(id)
					.flatMap(({ skill, recall }) => (skill === main ? [recall] : []))
			);
		}
		expect(shown).toHaveLength(2);
		expect(['sound', 'fluent']).toContain(shown[0]);
		expect(shown[1]).toBe('laboured');
	});
});

/** Plays the sound path of one callout, its first check predicted where that is wanted. */
async function soundly(callouts: Callouts, learnerId: string, coached: boolean): Promise<string> {
	const choice = { seed: 21, fault: pack.faults[0]!.id };
	const path = soundPath(makeCallout(pack, choice.seed, choice.fault), await evidenceFor(pack)).state.events.map(({ action }) => action);
	const first = path.findIndex(({ kind }) => kind === 'check');
	expect(first).toBeGreaterThanOrEqual(0);
	const { attemptId } = begun(callouts, learnerId, choice);
	for (const [at, action] of path.entries()) {
		const said: Action[] =
			coached && at === first && action.kind === 'check'
				? [{ kind: 'predict', check: action.check, expects: suspects.map((fault) => ({ fault, reads: 'cannot-tell' })) }]
				: [];
		const { seq } = callouts.load(attemptId, learnerId)!;
		const wanted: [unknown, ...unknown[]] = said.length > 0 ? [said[0], action] : [action];
		expect(callouts.actInTurn(attemptId, learnerId, wanted, seq).outcome).toBe('done');
	}
	return attemptId;
}
