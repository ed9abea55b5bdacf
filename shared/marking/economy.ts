/** Economy: regret against the sound path's cost, not a count of checks. */
import { line, money, sawNothing } from './bill.ts';
import type { Case } from './bill.ts';
import type { MarkLine } from './mark-sheet.ts';
import { choiceWords, eventWords, wasStopped } from './words.ts';

/** Regret as a share of what the sound path costs. */
export const regretShare = ({ path }: Case): number => path.regret / Math.max(path.soundCost, 1e-9);

/** How many of the dearest events get a line of their own. */
const dearest = 6;
/** Share of all regret from which an event is worth one. */
const worthALine = 0.05;
/** A loss below this rounds to no mark [marks], and is not spoken of. */
const leastShown = 0.05;

export function economyLines(one: Case): MarkLine[] {
	const { callout, path, state } = one;
	const outOf = callout.pack.rules.marks.economy;
	const { free, all } = callout.pack.rules.weighing.economy;
	if (state.ended === 'stopped') return [line('economy', null, outOf, 'Stopped before the work was done: there is no economy in that.')];
	if (!state.cured) return [line('economy', null, outOf, 'Not cured: time and money bought nothing yet.')];
	if (sawNothing(one)) return [line('economy', null, outOf, 'No check was taken before the work: there is no economy in that.')];
	const lost = outOf * Math.min(1, Math.max(0, (regretShare(one) - free) / (all - free)));
	const wasted = path.events
		.filter(({ regret }) => (regret ?? 0) > 0)
		.sort((a, b) => (b.regret ?? 0) - (a.regret ?? 0) || a.event.index - b.event.index);
	if (lost < leastShown) {
		return [
			line(
				'economy',
				null,
				0,
				`Time and money went where they could tell something. A sound path costs ${money(callout, path.soundCost)} here.`
			)
		];
	}
	const total = wasted.reduce((sum, { regret }) => sum + (regret ?? 0), 0);
	const share = (regret: number | null) => (lost * (regret ?? 0)) / total;
	const shown = wasted.slice(0, dearest).filter(({ regret }) => (regret ?? 0) >= worthALine * total && share(regret) >= leastShown);
	const lines = shown.map(({ event, regret, best }) => {
		const did = eventWords(callout, state, event.index);
		const cost = money(callout, regret ?? 0);
		const better = best ? ` ${choiceWords(callout, best)} was the better choice then.` : '';
		const says = wasStopped(event) ? `${did}: stopped, and ${cost} of time gone.` : `${did}: about ${cost} the dearer way.${better}`;
		return line('economy', event.index, share(regret), says);
	});
	const rest = lost - lines.reduce((sum, each) => sum + each.lost, 0);
	return rest < leastShown && lines.length > 0 ? lines : [...lines, line('economy', null, rest, 'Small detours, together.')];
}
