/** That nobody deletes an account to begin a paper anew with another. */
import { and, eq, gt, isNotNull, isNull, or } from 'drizzle-orm';
import type { Database } from '../database/open.ts';
import { learner, member, paper, sitting } from '../database/schema.ts';

/**
 * Why an account cannot be deleted now, in a sentence with the time from which it can; null where it can. While a sitting runs, and while a
 * formal paper that was sat is open to others, the next account would have another attempt at it.
 * @param now [ms since 1970]
 */
export function notWhileSitting(db: Database, learnerId: string, now: number): string | null {
	const at = new Date(now);
	const runs = and(isNull(sitting.ended), gt(sitting.deadline, at));
	const isOpen = and(eq(paper.mode, 'formal'), isNotNull(paper.closes), gt(paper.closes, at));
	const standing = db
		.select({
			title: paper.title,
			mode: paper.mode,
			closes: paper.closes,
			ended: sitting.ended,
			deadline: sitting.deadline,
			zone: learner.zone
		})
		.from(sitting)
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.innerJoin(member, eq(member.id, sitting.member))
		.innerJoin(learner, eq(learner.id, member.learner))
		.where(and(eq(member.learner, learnerId), or(runs, isOpen)))
		.all();
	const until = standing.map(({ mode, closes, ended, deadline, ...one }) => {
		const ends = [...(ended === null ? [deadline] : []), ...(mode === 'formal' && closes !== null ? [closes] : [])];
		return { ...one, at: Math.max(...ends.map((end) => end.getTime())) };
	});
	const [last] = until.toSorted((a, b) => b.at - a.at);
	if (!last) return null;
	const when = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeStyle: 'short', timeZone: last.zone }).format(last.at);
	return `You have sat the paper ${last.title}, which is still open: with another account you would have another attempt at it. This account can be deleted from ${when} on.`;
}
