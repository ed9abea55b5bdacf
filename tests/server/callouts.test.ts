import { eq } from 'drizzle-orm';
import { describe, expect, it } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { attemptsIn } from '$lib/server/database/attempts.ts';
import { action } from '$lib/server/database/schema.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { begun, doSome, firstFamily, freshService, somethingToDo } from './fresh.ts';

describe('a callout kept on disk', () => {
	it('is the same in another process that has only the file', () => {
		const { callouts, learnerId, again } = freshService();
		const at = doSome(callouts, learnerId, begun(callouts, learnerId), 6);
		expect(at.seq).toBe(6);
		expect(again().load(at.attemptId, learnerId)).toEqual(at);
	});

	it('holds every action on disk when it is answered', () => {
		const { callouts, learnerId, again, db } = freshService();
		let at = begun(callouts, learnerId);
		for (let i = 0; i < 4; i++) {
			at = doSome(callouts, learnerId, at, 1);
			expect(again().load(at.attemptId, learnerId)!.seq).toBe(i + 1);
		}
		const stored = db.select().from(action).where(eq(action.attempt, at.attemptId)).all();
		expect(stored.map(({ seq }) => seq)).toEqual([0, 1, 2, 3]);
	});

	it('answers nothing that could not be stored', () => {
		const { callouts, learnerId, db } = freshService();
		const at = doSome(callouts, learnerId, begun(callouts, learnerId), 2);
		db.$client.pragma('query_only = ON');
		expect(() => callouts.act(at.attemptId, learnerId, somethingToDo(at.view), at.seq)).toThrow(/readonly/);
		expect(callouts.load(at.attemptId, learnerId)).toEqual(at);
		db.$client.pragma('query_only = OFF');
		expect(doSome(callouts, learnerId, at, 1).seq).toBe(3);
	});

	it('is replayed from the pack it was made from, when the data of today is another', () => {
		const { callouts, learnerId, db } = freshService();
		const at = doSome(callouts, learnerId, begun(callouts, learnerId), 3);
		const pack = packs().get(firstFamily())!;
		const today = { ...pack, hash: 'another', checks: pack.checks.slice(0, 1), rules: { ...pack.rules, currency: 'another' } };
		const later = calloutsIn(db, new Map([[firstFamily(), today]]));
		expect(later.load(at.attemptId, learnerId)).toEqual(at);
		expect(begun(later, learnerId).view.rules.currency).toBe('another');
	});

	it('differs from one drawn seed to the next', () => {
		const { callouts, learnerId } = freshService();
		const seen = Array.from({ length: 12 }, () => {
			const { view } = begun(callouts, learnerId);
			return `${view.complaint} ${view.household}`;
		});
		expect(new Set(seen).size).toBeGreaterThan(1);
	});
});

describe('two tabs and double clicks', () => {
	it('takes one action sent twice as one', () => {
		const { callouts, learnerId } = freshService();
		const at = doSome(callouts, learnerId, begun(callouts, learnerId), 1);
		const wanted = somethingToDo(at.view);
		const first = callouts.act(at.attemptId, learnerId, wanted, at.seq);
		const second = callouts.act(at.attemptId, learnerId, wanted, at.seq);
		expect(first.outcome).toBe('done');
		expect(second).toEqual(first);
		expect(callouts.load(at.attemptId, learnerId)!.seq).toBe(2);
	});

	it('answers a page left behind with the callout as it stands and a sentence', () => {
		const { callouts, learnerId } = freshService();
		const behind = begun(callouts, learnerId);
		const ahead = doSome(callouts, learnerId, behind, 3);
		const acted = callouts.act(behind.attemptId, learnerId, { kind: 'demand', demand: 'heating' }, behind.seq);
		expect(acted).toEqual({ ...ahead, outcome: 'conflict', says: expect.stringMatching(/another tab/) });
	});

	it('keeps one line of actions when two processes write to one file', () => {
		const { callouts, learnerId, again } = freshService();
		const at = begun(callouts, learnerId);
		const other = again();
		expect(other.load(at.attemptId, learnerId)!.seq).toBe(0);
		expect(callouts.act(at.attemptId, learnerId, { kind: 'demand', demand: 'tap' }, 0).outcome).toBe('done');
		const late = other.act(at.attemptId, learnerId, { kind: 'demand', demand: 'heating' }, 0);
		expect(late.outcome).toBe('conflict');
		expect(other.load(at.attemptId, learnerId)).toEqual(callouts.load(at.attemptId, learnerId));
	});

	it('refuses a number ahead of the path', () => {
		const { callouts, learnerId } = freshService();
		const at = begun(callouts, learnerId);
		expect(callouts.act(at.attemptId, learnerId, { kind: 'demand', demand: 'tap' }, 5).outcome).toBe('conflict');
		expect(callouts.load(at.attemptId, learnerId)!.seq).toBe(0);
	});
});

describe('who may', () => {
	it('shows another learner nothing, and lets them do nothing', async () => {
		const { callouts, learnerId, db } = freshService();
		const at = begun(callouts, learnerId);
		const other = addLearner({ guest: true, invented: false }, db).id;
		expect(callouts.load(at.attemptId, other)).toBeNull();
		expect(callouts.act(at.attemptId, other, { kind: 'demand', demand: 'tap' }, 0)).toEqual({ outcome: 'missing' });
		expect(await callouts.debrief(at.attemptId, other)).toEqual({ outcome: 'missing' });
		expect(callouts.load(at.attemptId, learnerId)!.seq).toBe(0);
	});

	it('answers an unknown id just as one of another learner', async () => {
		const { callouts, learnerId } = freshService();
		expect(callouts.load('no-such-attempt', learnerId)).toBeNull();
		expect(callouts.act('no-such-attempt', learnerId, { kind: 'prove' }, 0)).toEqual({ outcome: 'missing' });
		expect(await callouts.debrief('no-such-attempt', learnerId)).toEqual({ outcome: 'missing' });
	});

	it('names an unknown family or fault', () => {
		const { callouts, learnerId } = freshService();
		expect(callouts.start(learnerId, { family: 'no-such-family' })).toEqual({
			outcome: 'invalid',
			says: expect.stringContaining('no-such-family')
		});
		expect(callouts.start(learnerId, { family: firstFamily(), fault: 'no-such-fault' })).toEqual({
			outcome: 'invalid',
			says: expect.stringContaining('no-such-fault')
		});
		expect(callouts.start(learnerId, { family: firstFamily(), seed: 0.5 }).outcome).toBe('invalid');
	});
});

describe('an ended callout', () => {
	it('does nothing more, in this process and in the next', () => {
		const { callouts, learnerId, again, db } = freshService();
		const at = doSome(callouts, learnerId, begun(callouts, learnerId), 2);
		const left = callouts.act(at.attemptId, learnerId, { kind: 'leave', told: [] }, at.seq);
		if (left.outcome !== 'done') throw new Error(left.outcome);
		expect(left.view.ended).toBe('left');
		for (const service of [callouts, again()]) {
			const more = service.act(at.attemptId, learnerId, { kind: 'demand', demand: 'tap' }, left.seq);
			expect(more.outcome).toBe('refused');
			expect(service.load(at.attemptId, learnerId)!.seq).toBe(3);
		}
		expect(attemptsIn(db).find(at.attemptId)!.ended).toBeInstanceOf(Date);
	});

	it('has no debrief before its end', async () => {
		const { callouts, learnerId, db } = freshService();
		const at = begun(callouts, learnerId);
		expect(await callouts.debrief(at.attemptId, learnerId)).toEqual({ outcome: 'running' });
		expect(attemptsIn(db).find(at.attemptId)!.ended).toBeNull();
	});
});

it.each(['read \u202Ebackwards', 'unse\u200Ben', 'with a NUL\u0000'])(
	'takes no note %j and says why; one of several lines it takes',
	(text) => {
		const { callouts, learnerId, db } = freshService();
		const at = begun(callouts, learnerId);
		expect(callouts.act(at.attemptId, learnerId, { kind: 'note', text }, at.seq)).toMatchObject({
			outcome: 'refused',
			says: expect.stringContaining('cannot be read')
		});
		expect(db.select().from(action).all()).toEqual([]);
		expect(callouts.act(at.attemptId, learnerId, { kind: 'note', text: 'Flow\t48 °C\nReturn 41 °C ⚠️' }, at.seq).outcome).toBe('done');
	}
);
