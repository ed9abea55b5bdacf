import { onTestFinished } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { calloutsIn, type Callouts } from '$lib/server/callouts/callouts.ts';
import type { RunningCallout } from '$lib/server/callouts/outcomes.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { packs } from '$lib/server/packs/packs.ts';
import type { Action } from '#shared/callout/action.ts';
import type { CalloutView } from '#shared/callout/view.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';

/** A data folder that goes with the test. */
export function freshFolder(): string {
	const folder = makeDataFolder();
	onTestFinished(() => removeFolder(folder));
	return folder;
}

/** The service on a database file of its own. `again` is a second server process as the file sees it: nothing shared but the disk. */
export function freshService(folder = freshFolder()): { db: Database; callouts: Callouts; learnerId: string; again: () => Callouts } {
	const open = () => {
		const db = openDatabase(folder);
		onTestFinished(() => void db.$client.close());
		return db;
	};
	const db = open();
	const learnerId = addLearner({ guest: true, invented: false }, db).id;
	return { db, callouts: calloutsIn(db, packs()), learnerId, again: () => calloutsIn(open(), packs()) };
}

/** A callout of the first family, begun. */
export function begun(callouts: Callouts, learnerId: string, choice: { seed?: number; fault?: string } = {}): RunningCallout {
	const started = callouts.start(learnerId, { family: firstFamily(), ...choice });
	if (started.outcome !== 'started') throw new Error(started.says);
	return callouts.load(started.attemptId, learnerId)!;
}

export function firstFamily(): string {
	return [...packs().keys()][0]!;
}

/** The first thing on offer that nothing stands in the way of: a check where there is one under this demand, else opening the tap. */
export function somethingToDo(view: CalloutView): Action {
	const check = view.checks.find(({ unmet, under, taken }) => unmet.length === 0 && under.includes(view.demand) && taken === 0);
	return check ? { kind: 'check', check: check.id } : { kind: 'demand', demand: view.demand === 'tap' ? 'none' : 'tap' };
}

/** Does some actions one after the other and returns the callout as last answered. */
export function doSome(callouts: Callouts, learnerId: string, from: RunningCallout, count: number): RunningCallout {
	let { attemptId, seq, view } = from;
	for (let i = 0; i < count; i++) {
		const action: Action = view.demand === 'none' ? { kind: 'demand', demand: 'tap' } : somethingToDo(view);
		const acted = callouts.act(attemptId, learnerId, action, seq);
		if (acted.outcome !== 'done') throw new Error(`${acted.outcome}: ${'says' in acted ? acted.says : ''}`);
		({ attemptId, seq, view } = acted);
	}
	return { attemptId, seq, view };
}
