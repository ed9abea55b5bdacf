/** A learner who practises on a database file of their own, on a clock that the test sets. */
import { onTestFinished } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { calloutsIn, type Callouts } from '$lib/server/callouts/callouts.ts';
import { curriculum } from '$lib/server/packs/curriculum.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { packs } from '$lib/server/packs/packs.ts';
import type { DrillSources } from '$lib/server/practice/drills.ts';
import { practiceIn, type Practice } from '$lib/server/practice/practice.ts';
import type { Action } from '#shared/callout/action.ts';
import type { Answer, Drill, Generator, Judged } from '#shared/review/drills/drill.ts';
import { drillKinds } from '#shared/scenario/curriculum.ts';
import { freshFolder } from '../fresh.ts';

export const minute = 60_000;
export const day = 24 * 60 * minute;
/** A Monday evening in winter, so that London's clock is UTC and stays so for months. */
export const monday = Date.parse('2026-11-02T20:00:00Z');

export interface Process {
	readonly db: Database;
	readonly callouts: Callouts;
	readonly practice: Practice;
}

export interface Practising extends Process {
	readonly learnerId: string;
	/** Another server process on the same file: nothing shared but the disk. */
	readonly again: (sources?: Partial<DrillSources>) => Process;
}

export function practising(sources: Partial<DrillSources> = {}): Practising {
	const folder = freshFolder();
	const again = (given: Partial<DrillSources> = sources): Process => {
		const db = openDatabase(folder);
		onTestFinished(() => void db.$client.close());
		const known = given.known ?? packs();
		const callouts = calloutsIn(db, known);
		return {
			db,
			callouts,
			practice: practiceIn(db, callouts, known, curriculum(), { generators: sums, tableSoon: evidenceFor, ...given })
		};
	};
	const one = again();
	return { ...one, learnerId: addLearner({ guest: true, invented: false }, one.db).id, again };
}

/** A question that a test can answer: twice its number, in each kind of drill. Slow when it took more than a minute. */
function sum(drill: string): Generator {
	const make = (_: unknown, seed: number): Drill => ({
		question: {
			drill,
			family: null,
			asks: 'What is twice this?',
			given: [{ name: 'This', value: String(seed % 100) }],
			asking: { kind: 'figure', units: [] }
		},
		judge(answer: Answer, seconds: number): Judged | { refused: string } {
			const figure = 'written' in answer ? Number(answer.written) : NaN;
			if (Number.isNaN(figure)) return { refused: 'A figure was expected.' };
			const right = figure === 2 * (seed % 100);
			const recall = !right ? 'lost' : seconds > 60 ? 'laboured' : 'sound';
			return { right, recall, answer: [String(2 * (seed % 100))], worked: [], misconception: null };
		}
	});
	return { id: `twice-${drill}`, drill, needs: 'nothing', make };
}
export const sums: ReadonlyMap<string, Generator> = new Map(drillKinds.map((kind) => [`twice-${kind}`, sum(kind)]));

/** Answers a drill of `sums`. */
export async function answerSum({ practice }: Process, id: string, learnerId: string, now: number, isRight = true): Promise<void> {
	const found = await practice.drills.find(id, learnerId);
	if (found.outcome !== 'standing') throw new Error(found.outcome);
	const written = String(Number(found.drill.question.given[0]!.value) * 2 + (isRight ? 0 : 1));
	const answered = await practice.drills.answer(id, learnerId, { written }, now);
	if (answered.outcome !== 'answered') throw new Error(answered.outcome);
}

/** Looks once and leaves: an ended callout that cured nothing. Each action takes half a minute. */
export function leaveAtOnce({ callouts }: Process, id: string, learnerId: string, now: number): number {
	const actions: Action[] = [
		{ kind: 'demand', demand: 'tap' },
		{ kind: 'leave', told: [] }
	];
	let at = now;
	for (const action of actions) {
		at += minute / 2;
		const { seq } = callouts.load(id, learnerId)!;
		const acted = callouts.act(id, learnerId, action, seq, at);
		if (acted.outcome !== 'done') throw new Error(acted.outcome);
	}
	return at;
}

/** Plays whatever is next in the open round: a drill rightly, a callout badly. @returns when it was over, or null where nothing is next */
export async function playNext(one: Practising, now: number): Promise<number | null> {
	const { practice, learnerId } = one;
	const gone = await practice.rounds.goOn(learnerId, now);
	if (gone.outcome === 'drill') {
		await answerSum(one, gone.id, learnerId, now + minute / 2);
		return now + minute / 2;
	}
	if (gone.outcome !== 'callout') return null;
	const ended = leaveAtOnce(one, gone.id, learnerId, now);
	await practice.reviews.settle(gone.id);
	return ended;
}
