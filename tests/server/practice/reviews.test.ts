import { eq } from 'drizzle-orm';
import { describe, expect, it, vi } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { attempt, memory, review } from '$lib/server/database/schema.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { areaSkillId } from '#shared/review/skills.ts';
import { firstFamily } from '../fresh.ts';
import { day, leaveAtOnce, minute, monday, practising, type Process } from './practising.ts';

const pack = packs().get(firstFamily())!;
const family = pack.family.id;
const [fault] = pack.faults.toSorted((a, b) => b.weight - a.weight);
const skill = areaSkillId(family, fault!.area);

function started({ callouts }: Process, learnerId: string, now: number, seed = 5): string {
	const begun = callouts.start(learnerId, { family, fault: fault!.id, seed }, now);
	if (begun.outcome !== 'started') throw new Error(begun.says);
	return begun.attemptId;
}
const logOf = ({ db }: Process) => db.select().from(review).all();
const attemptOf = ({ db }: Process, id: string) => db.select().from(attempt).where(eq(attempt.id, id)).get()!;

describe('what an ended callout showed', () => {
	it('goes into the log once, with the attempt marked, however often and by whomever it is settled', async () => {
		const one = practising();
		const { learnerId, again, practice } = one;
		const id = started(one, learnerId, monday);
		const ended = leaveAtOnce(one, id, learnerId, monday);
		const other = again();
		await Promise.all([practice.reviews.settle(id), practice.reviews.settle(id), other.practice.reviews.settle(id)]);
		await again().practice.reviews.settle(id);
		expect(logOf(one)).toEqual([
			{ id: 1, learner: learnerId, skill, at: new Date(ended), recall: 'lost', minutes: 1, attempt: id, drill: null }
		]);
		expect(attemptOf(one, id).reviewed).not.toBeNull();
		expect(practice.memories.of(learnerId).get(skill)).toMatchObject({ last: ended, shown: 'lost', reviews: 1 });
	});

	it('is nothing while it runs', async () => {
		const one = practising();
		const id = started(one, one.learnerId, monday);
		await one.practice.reviews.settle(id);
		expect(logOf(one)).toEqual([]);
		expect(attemptOf(one, id).reviewed).toBeNull();
	});

	it('is as good as the path: a sound one is fluent', async () => {
		const one = practising();
		const { learnerId, callouts, practice } = one;
		const id = started(one, learnerId, monday);
		const { state } = soundPath(makeCallout(pack, 5, fault!.id), await evidenceFor(pack));
		let at = monday;
		for (const [seq, { action }] of state.events.entries()) callouts.act(id, learnerId, action, seq, (at += minute));
		await practice.reviews.settle(id);
		expect(logOf(one)).toMatchObject([{ skill, recall: 'fluent', minutes: state.events.length }]);
	});

	it('takes the learner’s own minutes, without the hour in which they were elsewhere', async () => {
		const one = practising();
		const { learnerId, callouts, practice } = one;
		const id = started(one, learnerId, monday);
		callouts.act(id, learnerId, { kind: 'demand', demand: 'tap' }, 0, monday + 2 * minute);
		callouts.act(id, learnerId, { kind: 'demand', demand: 'none' }, 1, monday + 62 * minute);
		callouts.act(id, learnerId, { kind: 'leave', told: [] }, 2, monday + 65 * minute);
		await practice.reviews.settle(id);
		expect(logOf(one)).toMatchObject([{ minutes: 5, at: new Date(monday + 65 * minute) }]);
	});

	it('is made up for at the next start, where the server stopped between end and review', async () => {
		const one = practising();
		const ids = [1, 2].map((seed) => started(one, one.learnerId, monday + seed * day, seed));
		for (const [index, id] of ids.entries()) leaveAtOnce(one, id, one.learnerId, monday + (index + 1) * day);
		const running = started(one, one.learnerId, monday + 3 * day, 3);
		expect(logOf(one)).toEqual([]);
		await one.again().practice.reviews.settleEnded();
		expect(logOf(one).map((row) => row.attempt)).toEqual(ids);
		expect(attemptOf(one, running).reviewed).toBeNull();
	});

	it('is stored whole or not at all', async () => {
		const one = practising();
		const id = started(one, one.learnerId, monday);
		leaveAtOnce(one, id, one.learnerId, monday);
		const { memories, reviews } = one.practice;
		const take = vi.spyOn(memories, 'take').mockImplementation(() => {
			throw new Error('the power went');
		});
		await expect(reviews.settle(id)).rejects.toThrow(/the power went/);
		expect([logOf(one), attemptOf(one, id).reviewed]).toEqual([[], null]);
		take.mockRestore();
		await reviews.settle(id);
		expect(logOf(one)).toHaveLength(1);
	});

	it('is nothing where this version cannot play it, and it is not tried for ever', async () => {
		const one = practising();
		const id = started(one, one.learnerId, monday);
		leaveAtOnce(one, id, one.learnerId, monday);
		one.db.$client.prepare('update action set content = ? where attempt = ? and seq = 0').run('{"kind":"demand","demand":"gone"}', id);
		const later = one.again();
		await later.practice.reviews.settleEnded();
		expect(logOf(one)).toEqual([]);
		expect(attemptOf(one, id).reviewed).not.toBeNull();
	});

	it('is not kept for invented learners', async () => {
		const one = practising();
		const invented = addLearner({ guest: false, invented: true }, one.db).id;
		leaveAtOnce(one, started(one, invented, monday), invented, monday);
		await one.practice.reviews.settleEnded();
		expect(logOf(one)).toEqual([]);
	});

	it('goes with the learner', async () => {
		const one = practising();
		const id = started(one, one.learnerId, monday);
		leaveAtOnce(one, id, one.learnerId, monday);
		await one.practice.reviews.settle(id);
		one.db.$client.prepare('delete from learner where id = ?').run(one.learnerId);
		expect([logOf(one), one.db.select().from(memory).all()]).toEqual([[], []]);
	});
});
