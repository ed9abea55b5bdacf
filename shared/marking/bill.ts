/** How the lines of one criterion are drawn up. */
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutEvent, CalloutState, RemedyDone } from '#shared/callout/state.ts';
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

/** Whether any check was taken beyond what anyone notices when the appliance is run. */
const hasLooked = (events: readonly CalloutEvent[]): boolean =>
	events.some(({ action, readings }) => action.kind === 'check' && readings.length > 0);

/** Whether a remedy rests on the complaint alone: no check was taken before it, and nothing that was noticed shows it. */
export const isBlind = ({ state, path }: Case, { event, remedy }: RemedyDone): boolean =>
	!hasLooked(state.events.slice(0, event)) && !path.events[event].shown.before.has(remedy);

/** Whether nothing was read on the whole way to the first remedy, or to the end where there was none. */
export function sawNothing(one: Case): boolean {
	const [first] = one.state.remedies;
	return first ? isBlind(one, first) : !hasLooked(one.state.events);
}
