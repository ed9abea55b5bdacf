/** Papers of two drills that were sat and marked, without anybody at a bench. */
import { randomUUID } from 'node:crypto';
import type { Database } from '$lib/server/database/open.ts';
import { itemMark, sitting, type SittingRow } from '$lib/server/database/schema.ts';
import type { ItemResult } from '#shared/assessment/result.ts';
import { drillItem, hourMs, joinCohort, makeCohort, makePaper, minuteMs } from '../papers.ts';

export const drillResult = (right: boolean): ItemResult => ({ kind: 'drill', right, seconds: 40, said: ['12 l'], answer: ['12 l'] });

/** One marked sitting of a paper of drills. @returns its id */
export function satBy(db: Database, paper: string, member: string, right: readonly boolean[], more: Partial<SittingRow> = {}): string {
	const id = randomUUID();
	const ended = more.ended ?? new Date(Date.now() - hourMs);
	const started = new Date(ended.getTime() - 30 * minuteMs - 500);
	const row = { variant: 1, number: 1, started, deadline: ended, endedBy: 'handed-in' as const, seen: ended, marked: ended };
	db.insert(sitting)
		.values({ id, paper, member, ended, ...row, ...more })
		.run();
	for (const [slot, one] of right.entries()) {
		const content = JSON.stringify(drillResult(one));
		db.insert(itemMark)
			.values({ sitting: id, slot, content, got: one ? 10 : 0, outOf: 10, at: ended })
			.run();
	}
	return id;
}

/** A marked sitting in a cohort of its own. */
export function onePaperSat(db: Database, right: readonly boolean[] = [true, false], name = 'Ruth Ashworth') {
	const cohort = makeCohort(db);
	const member = joinCohort(db, cohort, null, { name, reference: 'C-1187' });
	const paper = makePaper(db, {
		cohort,
		variants: [right.map((_, slot) => drillItem(100 + slot))],
		passRule: { mark: 50, noDanger: true, cured: 0 }
	});
	return { cohort, member, paper, sitting: satBy(db, paper, member, right) };
}
