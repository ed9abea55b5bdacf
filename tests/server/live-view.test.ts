import { auditOf, reasonsOf } from '$lib/server/audit/audit.ts';
import { afterEach, beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import type { Action } from '#shared/callout/action.ts';
import { calloutsIn, type Callouts } from '$lib/server/callouts/callouts.ts';
import { followedIn } from '$lib/server/callouts/followed.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import {
	cohort,
	cohortAssessor,
	drill,
	itemMark,
	learner,
	session,
	sitting,
	sittingEvent,
	sittingItem
} from '$lib/server/database/schema.ts';
import { eventStream } from '$lib/server/live/event-stream.ts';
import { followingIn } from '$lib/server/live/following.ts';
import { liveIn } from '$lib/server/live/live.ts';
import { rowsOf } from '$lib/server/live/rows.ts';
import { everyMs, type Shown, type Watcher } from '$lib/server/live/ticker.ts';
import { idleAfterMinutes, wallOf, type Known } from '$lib/server/live/wall.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { addAccount, calloutItem, drillItem, joinCohort, makeCohort, makePaper, minuteMs } from '../papers.ts';
import { freshFolder } from './fresh.ts';

const now = Date.UTC(2026, 4, 5, 9, 0);
const nothing: Known = { did: () => null, breaches: () => [] };

/** A set paper of a callout and a drill, and its cohort with an assessor. */
function setPaper() {
	const db = openDatabase(freshFolder());
	onTestFinished(() => void db.$client.close());
	const assessor = addAccount(db, 'Assessor', 'assessor');
	const group = makeCohort(db, { assessor });
	const paper = makePaper(db, { cohort: group, variants: [[calloutItem(), drillItem()]], now });
	return { db, assessor, group, paper };
}

function sits(
	db: Database,
	{ group, paper }: { group: string; paper: string },
	name: string,
	more: Partial<typeof sitting.$inferInsert> = {}
) {
	const who = addAccount(db, name);
	const member = joinCohort(db, group, who);
	const id = `sitting-${name}`;
	const started = new Date(now);
	const deadline = new Date(now + 60 * minuteMs);
	db.insert(sitting)
		.values({ id, paper, member, variant: 1, number: 1, started, deadline, seen: started, ...more })
		.run();
	return { who, member, id };
}

const wallAt = (db: Database, paper: string, at: number, known = nothing) => wallOf(rowsOf(db, paper)!, known, at);

/** A callout of the paper, begun in a sitting. */
function beginCallout(db: Database, sat: { who: string; id: string }) {
	const callouts = calloutsIn(db, packs());
	const { family, seed, fault } = calloutItem();
	const started = callouts.start(sat.who, { family, seed, fault }, now);
	if (started.outcome !== 'started') throw new Error(started.says);
	db.insert(sittingItem).values({ sitting: sat.id, slot: 0, attempt: started.attemptId }).run();
	const acts = (action: Action, seq: number, at: number) => {
		const acted = callouts.act(started.attemptId, sat.who, action, seq, at);
		expect(acted.outcome).toBe('done');
	};
	return { callouts, acts, attempt: started.attemptId };
}

/** The first work on offer that would be stopped if it were begun with everything on. */
function unsafeAction(callouts: Callouts, attempt: string, who: string): Action {
	const { remedies } = callouts.load(attempt, who)!.view;
	const needs = new Map(
		packs()
			.get(calloutItem().family)!
			.remedies.map(({ id, needs }) => [id, needs])
	);
	const { id } = remedies.find(({ id, unmet }) => unmet.length === 0 && needs.get(id)!.includes('electricity-off'))!;
	return { kind: 'remedy', remedy: id, sure: 'guess' };
}

describe('the wall', () => {
	it('shows who has not begun, who sits and where, and who is through, and counts them', () => {
		const set = setPaper();
		const { db, paper, group } = set;
		joinCohort(db, group, null, { name: 'Nobody Yet' });
		joinCohort(db, group, addAccount(db, 'Left Before'), { left: new Date(now) });
		const busy = sits(db, set, 'Busy');
		sits(db, set, 'Through', { ended: new Date(now + minuteMs), endedBy: 'handed-in' });
		sits(db, set, 'Late', { ended: new Date(now + minuteMs), endedBy: 'time' });
		sits(db, set, 'Shut', { ended: new Date(now + minuteMs), endedBy: 'assessor' });
		beginCallout(db, busy);
		const { sitters, counts, items } = wallAt(db, paper, now + minuteMs);
		expect(items).toBe(2);
		expect(counts).toEqual({ all: 5, flagged: 0, sitting: 1, 'not-begun': 1, 'handed-in': 1, time: 1, closed: 1 });
		expect(sitters.map(({ name, state }) => [name, state])).toEqual([
			['Busy', 'sitting'],
			['Nobody Yet', 'not-begun'],
			['Late', 'time'],
			['Shut', 'closed'],
			['Through', 'handed-in']
		]);
		expect(sitters[0]).toMatchObject({
			variant: 1,
			place: { item: 1, kind: 'callout', isDone: false },
			done: 0,
			deadline: now + 60 * minuteMs,
			last: { says: 'Opened item 1, a callout', at: now },
			hasJoined: true
		});
		expect(sitters[1]).toMatchObject({ hasJoined: false, sitting: null, place: null });
	});

	it('of several sittings of a learner shows the latest', () => {
		const set = setPaper();
		const { member } = sits(set.db, set, 'Twice', { ended: new Date(now), endedBy: 'handed-in' });
		const again = { id: 'again', paper: set.paper, member, variant: 1, number: 2, started: new Date(now), seen: new Date(now) };
		set.db
			.insert(sitting)
			.values({ ...again, deadline: new Date(now + minuteMs) })
			.run();
		expect(wallAt(set.db, set.paper, now).sitters).toMatchObject([{ state: 'sitting', number: 2, sitting: 'again' }]);
	});

	it('tells that a drill was answered, and then that the callout is gone on with', () => {
		const set = setPaper();
		const sat = sits(set.db, set, 'Ann');
		const { acts, attempt } = beginCallout(set.db, sat);
		const asked = { id: 'drill', learner: sat.who, generator: 'pressurePerHeight', seed: 1, created: new Date(now + minuteMs) };
		set.db
			.insert(drill)
			.values({ ...asked, answer: '{}', answered: new Date(now + 2 * minuteMs) })
			.run();
		set.db.insert(sittingItem).values({ sitting: sat.id, slot: 1, drill: 'drill' }).run();
		const [answered] = wallAt(set.db, set.paper, now + 3 * minuteMs).sitters;
		expect(answered).toMatchObject({
			place: { item: 2, kind: 'drill', isDone: true },
			done: 1,
			last: { says: 'Answered item 2, a drill' }
		});
		acts({ kind: 'demand', demand: 'tap' }, 0, now + 3 * minuteMs);
		const [on] = wallAt(set.db, set.paper, now + 3 * minuteMs, { ...nothing, did: (id) => (id === attempt ? 'Tap run' : null) }).sitters;
		expect(on).toMatchObject({ place: { item: 1, isDone: false }, last: { says: 'Tap run', at: now + 3 * minuteMs } });
	});

	it('flags a sitter as idle from the minute on that the constant says, until something is done', () => {
		const set = setPaper();
		const { acts } = beginCallout(set.db, sits(set.db, set, 'Ann'));
		const idleAt = now + idleAfterMinutes * minuteMs;
		const flags = (at: number) => wallAt(set.db, set.paper, at).sitters[0]!.flags.map(({ kind }) => kind);
		expect(flags(idleAt - 1)).toEqual([]);
		expect(flags(idleAt)).toEqual(['idle']);
		acts({ kind: 'demand', demand: 'tap' }, 0, idleAt);
		expect(flags(idleAt)).toEqual([]);
	});

	it('puts danger first, then an unsafe act, another place tried, idle, and then who has the least time', () => {
		const set = setPaper();
		const { db, paper } = set;
		const at = now + idleAfterMinutes * minuteMs;
		const fresh = { started: new Date(at) };
		sits(db, set, 'Calm', fresh);
		sits(db, set, 'Hurried', { ...fresh, deadline: new Date(at + minuteMs) });
		sits(db, set, 'Asleep');
		const moved = sits(db, set, 'Moved', fresh);
		db.insert(sittingEvent)
			.values({ sitting: moved.id, at: new Date(at), kind: 'second-seat' })
			.run();
		const careless = sits(db, set, 'Careless', fresh);
		const reckless = sits(db, set, 'Reckless', fresh);
		const slip = { says: 'Isolated, but not proved dead.', dangerous: false };
		const known: Known = {
			...nothing,
			breaches: (id) => (id === careless.id ? [slip, slip] : id === reckless.id ? [slip, { says: 'Gas on.', dangerous: true }] : [])
		};
		const wall = wallAt(db, paper, at, known);
		expect(wall.sitters.map(({ name }) => name)).toEqual(['Reckless', 'Careless', 'Asleep', 'Moved', 'Hurried', 'Calm']);
		expect(wall.counts.flagged).toBe(4);
		expect(wall.sitters[0]!.flags.map(({ says, dangerous }) => [says, dangerous])).toEqual([
			['Gas on.', true],
			['Isolated, but not proved dead.', false]
		]);
		expect(wall.sitters[1]!.flags).toMatchObject([{ kind: 'unsafe', says: 'Isolated, but not proved dead. 2 times.' }]);
		expect(wall.sitters[3]!.flags).toMatchObject([{ kind: 'second-place', says: 'Another place was tried.' }]);
	});
});

describe('what is known of callouts', () => {
	it('is an unsafe act with its rule and the last action in words, looked up once an action and not at every look', () => {
		const set = setPaper();
		const sat = sits(set.db, set, 'Ann');
		const { callouts, acts, attempt } = beginCallout(set.db, sat);
		const asked = vi.fn(callouts.followed);
		const { knownOf } = followingIn(set.db, asked);
		const look = () => knownOf(rowsOf(set.db, set.paper)!);
		expect(look().breaches(sat.id)).toEqual([]);
		expect(asked).not.toHaveBeenCalled();
		acts({ kind: 'step', step: 'open-casing' }, 0, now);
		acts(unsafeAction(callouts, attempt, sat.who), 1, now);
		for (let looks = 0; looks < 3; looks++) look();
		expect(asked).toHaveBeenCalledTimes(1);
		const rules = packs().get(calloutItem().family)!.rules.safety;
		const [breach] = look().breaches(sat.id);
		expect(rules.map(({ says }) => says)).toContain(breach!.says);
		expect(look().did(attempt)).toBe(callouts.load(attempt, sat.who)!.view.events.at(-1)!.did);
	});

	it('after a restart comes from the path played again, and no more at once than leaves time to those who sit', () => {
		const set = setPaper();
		const sat = ['Ann', 'Bea'].map((name) => sits(set.db, set, name));
		for (const one of sat) beginCallout(set.db, one).acts({ kind: 'demand', demand: 'tap' }, 0, now);
		let ms = 0;
		const slow = (attempt: string, who: string) => {
			ms += 60;
			return calloutsIn(set.db, packs()).followed(attempt, who);
		};
		const { knownOf } = followingIn(set.db, slow, () => ms);
		const rows = rowsOf(set.db, set.paper)!;
		const told = () => rows.items.filter(({ id }) => knownOf(rows).did(id) !== null).length;
		knownOf(rows);
		expect(ms).toBe(60);
		expect([told(), ms]).toEqual([2, 120]);
	});

	it('of a sitting that was marked comes from its marks, read once, and nothing is played again', () => {
		const set = setPaper();
		const sat = sits(set.db, set, 'Ann');
		beginCallout(set.db, sat).acts({ kind: 'demand', demand: 'tap' }, 0, now);
		set.db
			.update(sitting)
			.set({ ended: new Date(now), endedBy: 'handed-in', marked: new Date(now) })
			.run();
		const sheet = { failed: true, lines: [{ criterion: 'safety', event: 1, lost: 25, says: 'Gas on.' }] };
		const mark = { sitting: sat.id, slot: 0, got: 10, outOf: 100, at: new Date(now) };
		set.db
			.insert(itemMark)
			.values({ ...mark, content: JSON.stringify({ kind: 'callout', sheet }) })
			.run();
		const asked = vi.fn(() => null);
		const { knownOf } = followingIn(set.db, asked);
		const rows = rowsOf(set.db, set.paper)!;
		expect(knownOf(rows).breaches(sat.id)).toEqual([{ says: 'The mark sheet says which.', dangerous: true }]);
		set.db.delete(itemMark).run();
		expect(knownOf(rows).breaches(sat.id)).toHaveLength(1);
		expect(asked).not.toHaveBeenCalled();
	});

	it('is nothing of an attempt that somebody else has', () => {
		const set = setPaper();
		const { callouts, attempt } = beginCallout(set.db, sits(set.db, set, 'Ann'));
		expect(callouts.followed(attempt, 'somebody else')).toBeNull();
		expect(followedIn({ bringUp: () => ({ outcome: 'missing' }) } as never).followed('none', 'nobody')).toBeNull();
	});
});

describe('the clock of a paper', () => {
	beforeEach(() => void vi.useFakeTimers({ now, toFake: ['setInterval', 'clearInterval', 'Date'] }));
	afterEach(() => void vi.useRealTimers());

	function watched() {
		const set = setPaper();
		const live = liveIn(set.db, () => null);
		const reads = vi.spyOn(set.db, 'transaction');
		const signedIn = (id: string, who = set.assessor) =>
			set.db
				.insert(session)
				.values({ id, userId: who, expiresAt: now / 1000 + 9000 })
				.run();
		const watcher = (id: string) => {
			const heard = { told: [] as Shown[], beats: 0, overs: 0 };
			const one: Watcher = {
				session: id,
				tell: (shown) => void heard.told.push(JSON.parse(shown) as Shown),
				beat: () => void heard.beats++,
				over: () => void heard.overs++
			};
			return { heard, one };
		};
		return { ...set, live, reads, signedIn, watcher };
	}

	it('looks at the database once a second however many watch, and tells them only what is new', () => {
		const { db, group, paper, live, reads, signedIn, watcher, ...set } = watched();
		signedIn('s');
		const many = Array.from({ length: 20 }, () => watcher('s'));
		const ends = many.map(({ one }) => live.watch(paper, one));
		expect(reads).toHaveBeenCalledTimes(1);
		for (const { heard } of many) expect(heard.told).toHaveLength(1);
		vi.advanceTimersByTime(5 * everyMs);
		expect(reads).toHaveBeenCalledTimes(6);
		for (const { heard } of many) expect(heard.told).toHaveLength(1);
		sits(db, { group, paper, ...set }, 'Ann');
		vi.advanceTimersByTime(everyMs);
		for (const { heard } of many) expect(heard.told.map(({ wall }) => wall.counts.sitting)).toEqual([0, 1]);
		for (let asks = 0; asks < 10; asks++) live.page(set.assessor, group, paper);
		expect(reads).toHaveBeenCalledTimes(7);
		for (const end of ends) end();
	});

	it('stops with the last watcher, and gives a sign of life to one who was told nothing', () => {
		const { paper, live, reads, signedIn, watcher } = watched();
		signedIn('s');
		const [a, b] = [watcher('s'), watcher('s')];
		const [endA, endB] = [live.watch(paper, a.one), live.watch(paper, b.one)];
		vi.advanceTimersByTime(31_000);
		expect([a.heard.beats, a.heard.told.length]).toEqual([2, 1]);
		endA();
		expect(live.watchers()).toBe(1);
		endB();
		expect([live.watchers(), vi.getTimerCount()]).toEqual([0, 0]);
		const before = reads.mock.calls.length;
		vi.advanceTimersByTime(10_000);
		expect(reads).toHaveBeenCalledTimes(before);
	});

	it.each<[string, (all: ReturnType<typeof watched>) => unknown]>([
		['signs out', ({ db }) => db.delete(session).run()],
		[
			'has a session that is over',
			({ db }) =>
				db
					.update(session)
					.set({ expiresAt: now / 1000 })
					.run()
		],
		['is no assessor any more', ({ db }) => db.update(learner).set({ role: 'learner' }).run()],
		['no longer keeps the cohort', ({ db }) => db.delete(cohortAssessor).run()],
		['had a cohort that is gone', ({ db }) => db.delete(cohort).run()]
	])('ends for an assessor who %s', (_, happens) => {
		const all = watched();
		all.signedIn('s');
		const { one, heard } = all.watcher('s');
		all.live.watch(all.paper, one);
		vi.advanceTimersByTime(everyMs);
		expect(heard.overs).toBe(0);
		happens(all);
		vi.advanceTimersByTime(everyMs);
		expect([heard.overs, heard.told.length, all.live.watchers(), vi.getTimerCount()]).toEqual([1, 1, 0, 0]);
	});

	it('goes on for one assessor where another has gone, and for any assessor of an invented cohort', () => {
		const { db, group, paper, live, signedIn, watcher } = watched();
		signedIn('own');
		signedIn('other', addAccount(db, 'Other', 'assessor'));
		const [own, other] = [watcher('own'), watcher('other')];
		db.update(cohort).set({ invented: true }).run();
		const ends = [own, other].map(({ one }) => live.watch(paper, one));
		vi.advanceTimersByTime(everyMs);
		expect([own.heard.overs, other.heard.overs]).toEqual([0, 0]);
		db.update(cohort).set({ invented: false }).run();
		vi.advanceTimersByTime(everyMs);
		expect([own.heard.overs, other.heard.overs, live.watchers()]).toEqual([0, 1, 1]);
		expect(live.page(addAccount(db, 'Third', 'assessor'), group, paper)).toBeNull();
		for (const end of ends) end();
	});

	it('is not stopped by a look that fails', () => {
		const { db, paper, live, reads, signedIn, watcher, ...set } = watched();
		signedIn('s');
		const { one, heard } = watcher('s');
		const end = live.watch(paper, one);
		reads.mockImplementationOnce(() => {
			throw new Error('busy');
		});
		vi.advanceTimersByTime(everyMs);
		sits(db, { paper, ...set }, 'Ann');
		vi.advanceTimersByTime(everyMs);
		expect([heard.overs, heard.told.length]).toEqual([0, 2]);
		end();
	});
});

describe('the stream of events', () => {
	const decode = (chunk: Uint8Array | undefined) => new TextDecoder().decode(chunk);

	it('sends to a slow reader the latest, and ends the watch when the reader goes', async () => {
		let watcher!: Omit<Watcher, 'session'>;
		const end = vi.fn();
		const response = eventStream((one) => {
			watcher = one;
			return end;
		});
		expect(response.headers.get('content-type')).toBe('text/event-stream');
		const reader = response.body!.getReader();
		for (const shown of ['1', '2', '3']) watcher.tell(shown);
		watcher.beat();
		const read = async () => decode((await reader.read()).value);
		expect(await read()).toBe('retry: 2000\n\n');
		expect(await read()).toBe('data: 3\n\n');
		const next = read();
		watcher.beat();
		expect(await next).toBe(':\n\n');
		await reader.cancel();
		expect(end).toHaveBeenCalledTimes(1);
	});

	it('says that it is over, and closes', async () => {
		let watcher!: Omit<Watcher, 'session'>;
		const response = eventStream((one) => {
			watcher = one;
			return () => undefined;
		});
		watcher.over();
		expect(await response.text()).toBe('retry: 2000\n\nevent: over\ndata:\n\n');
	});
});

it('closing a sitting is for whoever keeps its cohort, of its own paper, and never in an invented one', () => {
	const set = setPaper();
	const { db, assessor, group, paper } = set;
	const sat = sits(db, set, 'Ann');
	const live = liveIn(db, () => null);
	const other = addAccount(db, 'Other', 'assessor');
	const elsewhere = makePaper(db, { cohort: group, variants: [[drillItem()]], now });
	const wanted = { sitting: sat.id, reason: 'The fire alarm went' };
	expect(live.close(other, group, paper, wanted, now)).toEqual({ outcome: 'missing' });
	expect(live.close(assessor, group, elsewhere, wanted, now)).toEqual({ outcome: 'missing' });
	expect(live.close(assessor, group, paper, { ...wanted, sitting: null }, now)).toEqual({ outcome: 'missing' });
	for (const reason of [undefined, '', 'fire alarm'])
		expect(live.close(assessor, group, paper, { ...wanted, reason }, now)).toMatchObject({
			outcome: 'refused',
			says: expect.stringContaining('3 words')
		});
	db.update(cohort).set({ invented: true }).run();
	expect(live.close(assessor, group, paper, wanted, now).outcome).toBe('refused');
	db.update(cohort).set({ invented: false }).run();
	expect(live.page(assessor, group, paper)!.wall.counts.sitting).toBe(1);
	// What runs on after a cohort is archived is still to be ended.
	db.update(cohort)
		.set({ archived: new Date(now) })
		.run();
	expect(live.close(assessor, group, paper, wanted, now + minuteMs)).toEqual({ outcome: 'closed' });
	const told = auditOf(db, sat.id).filter(({ kind }) => kind === 'sitting-ended');
	expect(told).toMatchObject([{ by: assessor }]);
	expect([...reasonsOf(db, told).values()]).toEqual(['The fire alarm went']);
	expect(live.page(assessor, group, paper)!.wall.sitters).toMatchObject([
		{ state: 'closed', last: { says: 'Closed by an assessor', at: now + minuteMs } }
	]);
});
