/**
 * Keeps what callouts of sittings have come to, in words, from look to look.
 *
 * A rule that was breached is nowhere stored: it follows from the path. But the process that took the action has worked its state out and
 * keeps it, so that to ask for it is to look it up: sixty who act every few seconds cost a few look-ups a second, and nothing is written
 * twice that could come to differ. An attempt is asked about only when it has an action more than before. After a restart paths are played
 * again, each once, and only so many in one look that nobody who sits is kept waiting.
 */
import { eq } from 'drizzle-orm';
import type { ItemResult } from '#shared/assessment/result.ts';
import type { Breach, Followed } from '../callouts/followed.ts';
import type { Database } from '../database/open.ts';
import { itemMark } from '../database/schema.ts';
import { Recent } from '../recent.ts';
import type { Rows } from './rows.ts';
import type { Known } from './wall.ts';

/** For what has to be played again in one look. */
const mostMs = 50;
/** Attempts and sittings kept in mind: some dozens of papers of sixty. */
const mostKept = 5000;

/** @param follow  of an attempt by its learner; null where it cannot be played again */
export function followingIn(db: Database, follow: (attempt: string, learner: string) => Followed | null, clock = () => performance.now()) {
	const attempts = new Recent<Followed>(mostKept);
	const marked = new Recent<readonly Breach[]>(mostKept);

	/** Marks never change once they are made. */
	function breachesMarked(sitting: string): readonly Breach[] {
		const kept = marked.get(sitting);
		if (kept) return kept;
		const rows = db.select({ content: itemMark.content }).from(itemMark).where(eq(itemMark.sitting, sitting)).all();
		const results = rows.map(({ content }) => JSON.parse(content) as ItemResult);
		const found = results.flatMap((result) => (result.kind === 'callout' ? breachesIn(result) : []));
		marked.set(sitting, found);
		return found;
	}

	return {
		/** Looks up what is new. A sitting that was marked is told of by its marks, and its paths are left alone. */
		knownOf(rows: Rows): Known {
			const began = clock();
			const isMarked = new Set(rows.sittings.filter((one) => one.marked !== null).map(({ id }) => id));
			const played = rows.items.filter(({ kind, sitting }) => kind === 'callout' && !isMarked.has(sitting));
			for (const { id, learner, actions } of played) {
				if ((attempts.get(id)?.actions ?? 0) === actions || clock() - began > mostMs) continue;
				attempts.set(id, follow(id, learner) ?? { actions, did: null, breaches: [] });
			}
			return {
				did: (attempt) => attempts.get(attempt)?.did ?? null,
				breaches: (sitting) =>
					isMarked.has(sitting)
						? breachesMarked(sitting)
						: played.filter((one) => one.sitting === sitting).flatMap(({ id }) => attempts.get(id)?.breaches ?? [])
			};
		}
	};
}

/** The marks name the rules at length; here it is enough that there is something to read there. */
function breachesIn({ sheet }: Extract<ItemResult, { kind: 'callout' }>): Breach[] {
	if (sheet.failed) return [{ says: 'The mark sheet says which.', dangerous: true }];
	const isUnsafe = sheet.lines.some(({ criterion, lost }) => criterion === 'safety' && lost > 0);
	return isUnsafe ? [{ says: 'The mark sheet says which.', dangerous: false }] : [];
}
