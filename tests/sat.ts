/** Sittings that have closed, as tests lay them: played through the services, stored as the pages of sittings store them. */
import { randomUUID } from 'node:crypto';
import type { Action } from '#shared/callout/action.ts';
import type { CalloutItem, DrillItem } from '#shared/assessment/variant.ts';
import { generators } from '#shared/review/drills/index.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import type { Database } from '$lib/server/database/open.ts';
import { cohortAssessor, drill, sitting, sittingItem, type SittingRow } from '$lib/server/database/schema.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { addAccount, calloutItem, drillItem, hourMs, joinCohort, makeCohort, makePaper, minuteMs, type PaperChoice } from './papers.ts';

export const sum: DrillItem = drillItem();

/** The right answer to it, as a learner would write it. */
export function rightAnswer(): string {
	const judged = generators
		.find(({ id }) => id === sum.generator)!
		.make({ pack: null, table: null }, sum.seed)
		.judge({ written: '1' }, 30);
	if ('refused' in judged) throw new Error(judged.refused);
	return judged.answer[0]!;
}

/** Opens the tap, looks at something and says that everything is still in. */
export const shortPath: readonly Action[] = [
	{ kind: 'demand', demand: 'tap' },
	{ kind: 'check', check: 'measure-tap-temperature' },
	{ kind: 'judge', still: ['plate-scaled'] }
];

export interface Laid {
	readonly assessor: string;
	readonly colleague: string;
	readonly cohort: string;
	readonly paper: string;
}

/** A formal paper of a callout, another and a drill whose window is over, in a cohort that two assessors keep. */
export function layPaper(db: Database, choice: Partial<PaperChoice> = {}, now = Date.now()): Laid {
	const assessor = addAccount(db, `Assessor ${randomUUID().slice(0, 8)}`, 'assessor');
	const colleague = addAccount(db, `Colleague ${randomUUID().slice(0, 8)}`, 'assessor');
	const cohort = makeCohort(db, { assessor });
	db.insert(cohortAssessor)
		.values({ cohort, assessor: colleague, since: new Date(now) })
		.run();
	const paper = makePaper(db, {
		cohort,
		opens: now - 3 * hourMs,
		closes: now - hourMs,
		variants: [[scaled(), dry(), sum]],
		now,
		...choice
	});
	return { assessor, colleague, cohort, paper };
}

export const scaled = (): CalloutItem => calloutItem({ fault: 'plate-scaled', seed: 40 });
export const dry = (): CalloutItem => calloutItem({ fault: 'pump-seized', seed: 60 });

export interface Sat {
	readonly name?: string;
	/** Actions by slot; nothing at all for an item that was not begun. */
	readonly paths?: readonly (readonly Action[] | null)[];
	/** What was written in answer to the drill; null where it was not answered. */
	readonly written?: string | null;
	readonly row?: Partial<SittingRow>;
}

/** A sitting of it, closed and not marked. @returns its id */
export function sit(
	db: Database,
	{ cohort, paper }: Laid,
	{ name, paths = [shortPath, null], written = null, row = {} }: Sat = {},
	now = Date.now()
) {
	const learner = addAccount(db, name ?? `Learner ${randomUUID().slice(0, 8)}`);
	const id = randomUUID();
	const began = new Date(now - 2 * hourMs);
	const ended = new Date(now - 70 * minuteMs);
	db.insert(sitting)
		.values({
			id,
			paper,
			member: joinCohort(db, cohort, learner),
			variant: 1,
			number: 1,
			started: began,
			deadline: ended,
			ended,
			endedBy: 'time',
			seen: ended,
			...row
		})
		.run();
	const callouts = calloutsIn(db, packs());
	for (const [slot, path] of paths.entries()) {
		if (path === null) continue;
		const { family, seed, fault } = [scaled(), dry()][slot]!;
		const started = callouts.start(learner, { family, seed, fault }, began.getTime());
		if (started.outcome !== 'started') throw new Error(started.says);
		for (const [seq, action] of path.entries()) {
			const acted = callouts.act(started.attemptId, learner, action, seq, began.getTime() + (seq + 1) * minuteMs);
			if (acted.outcome !== 'done') throw new Error(`${acted.outcome}: ${'says' in acted ? acted.says : ''}`);
		}
		db.insert(sittingItem).values({ sitting: id, slot, attempt: started.attemptId }).run();
	}
	const asked = { id: randomUUID(), learner, generator: sum.generator, family: null, packHash: null, seed: sum.seed, created: began };
	const answered = written === null ? {} : { answer: JSON.stringify({ written }), answered: new Date(began.getTime() + 40_000) };
	db.insert(drill)
		.values({ ...asked, ...answered })
		.run();
	db.insert(sittingItem).values({ sitting: id, slot: paths.length, drill: asked.id }).run();
	return id;
}
