/** How long a sitting lasts, and how a paper's window stands. By the server's clock alone. */
import type { MemberRow, PaperRow, SittingRow } from '../database/schema.ts';

const minuteMs = 60_000;

/** Minutes that a member has for a paper, with their own extra time; part of a minute counts as a whole one. */
export function minutesFor({ minutes }: Pick<PaperRow, 'minutes'>, { extraPercent }: Pick<MemberRow, 'extraPercent'>): number {
	return Math.ceil((minutes * (100 + extraPercent)) / 100);
}

/** When a sitting that is begun now is closed: after the member's own minutes, and never after the window. @returns [ms since 1970] */
export function deadlineOf(
	set: Pick<PaperRow, 'minutes' | 'closes'>,
	sitter: Pick<MemberRow, 'extraPercent'>,
	now: number
): { readonly at: number; readonly isCut: boolean } {
	const own = now + minutesFor(set, sitter) * minuteMs;
	const closes = set.closes?.getTime() ?? now;
	return { at: Math.min(own, closes), isCut: closes < own };
}

/** Minutes from one moment to a later one, a part of one counted as a whole; 0 once it has come. */
export const minutesUntil = (at: number, now: number): number => Math.max(0, Math.ceil((at - now) / minuteMs));

/** Whether nothing can be done in a sitting any more, whether or not it has been closed yet. @param now [ms since 1970] */
export const isOver = ({ ended, deadline }: Pick<SittingRow, 'ended' | 'deadline'>, now: number): boolean =>
	ended !== null || deadline.getTime() <= now;

/** `to-come`: its window has not opened; `open`: a sitting can be begun; `over`: none can any more. */
export type WindowState = 'to-come' | 'open' | 'over';

export function windowOf({ opens, closes }: Pick<PaperRow, 'opens' | 'closes'>, now: number): WindowState {
	if (opens === null || closes === null || closes.getTime() <= now) return 'over';
	return now < opens.getTime() ? 'to-come' : 'open';
}
