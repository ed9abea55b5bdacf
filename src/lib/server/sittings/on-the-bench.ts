/** What the pages of a callout or a drill must know where it belongs to a sitting. */
import type { Database } from '../database/open.ts';
import { database } from '../database/open.ts';
import { isOver } from './allowed.ts';
import { closeSitting, type Closing } from './closing.ts';
import { isReleased, sittingHolding, type Played } from './release.ts';
import { isSeated } from './seat.ts';
import type { Sitter } from './sittings.ts';
import { clockTime } from './times.ts';

/** What stands over the work: whose paper it is of and how long it lasts. */
export interface Strip {
	/** Of the sitting. */
	readonly id: string;
	readonly title: string;
	readonly isFormal: boolean;
	/** When it is closed, and what the server's clock says now [ms since 1970]. */
	readonly deadline: number;
	readonly now: number;
	/** The deadline as the clock on the learner's wall has it. */
	readonly until: string;
}

export type OnTheBench =
	/** Of no sitting: played for practice. */
	| { readonly outcome: 'free' }
	| { readonly outcome: 'open'; readonly strip: Strip }
	/** Not here, or not any more: the page of the sitting says why. */
	| { readonly outcome: 'away'; readonly sitting: string }
	/** Closed, and may be told. */
	| { readonly outcome: 'told'; readonly sitting: string };

/**
 * Whether a learner's own attempt or drill can be worked at from where they are. Closes the sitting where its time is over.
 * @param who.zone  IANA name, in which times are said
 * @param now       [ms since 1970]
 */
export function onTheBench(
	played: Played,
	who: Sitter & { readonly zone: string },
	now = Date.now(),
	db: Database = database(),
	closing?: Closing
): OnTheBench {
	const holding = sittingHolding(db, played);
	// Somebody else's is as if it were of no sitting: that it is not theirs is for whoever asked to say.
	if (holding?.learner !== who.learner) return { outcome: 'free' };
	const { paper } = holding;
	const { id, deadline, ended } = holding.sitting;
	if (isOver(holding.sitting, now)) {
		if (ended === null) closeSitting(db, id, 'time', now, closing);
		const told = isReleased(paper, { ended: ended ?? deadline }, now);
		return { outcome: told ? 'told' : 'away', sitting: id };
	}
	if (!isSeated(db, holding.sitting, who.seat, now)) return { outcome: 'away', sitting: id };
	const strip = {
		id,
		title: paper.title,
		isFormal: paper.mode === 'formal',
		deadline: deadline.getTime(),
		now,
		until: clockTime(deadline.getTime(), who.zone)
	};
	return { outcome: 'open', strip };
}
