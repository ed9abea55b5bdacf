/** How the lines of one criterion are drawn up. */
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { JudgedPath } from './judged-path.ts';
import type { Criterion, MarkLine } from './mark-sheet.ts';

/** What each criterion is judged from. */
export interface Case {
	readonly callout: Callout;
	readonly state: CalloutState;
	readonly path: JudgedPath;
}

export const line = (criterion: Criterion, event: number | null, lost: number, says: string): MarkLine => ({
	criterion,
	event,
	lost,
	says
});

/** An amount of money in words: "112 pounds" would be a currency's own word, so the sign goes before the number. */
export const money = (callout: Callout, amount: number): string => `${callout.pack.rules.currency}${Math.round(amount)}`;

/** A chance in words fit for a bill. */
export const percent = (chance: number): string =>
	chance > 0.99 ? 'over 99 %' : chance < 0.01 ? 'under 1 %' : `${Math.round(chance * 100)} %`;
