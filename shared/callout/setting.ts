/** An instrument set by hand: the range chosen and where its leads were put, and what it then shows, right or wrong. */
import { formatNumber, decimalsOf } from '#shared/quantity/format.ts';
import { observe, type Display, type Observed } from '#shared/quantity/instrument.ts';
import { chance } from '#shared/quantity/random.ts';
import { instrumentOf, rangeFor, toolOf, type RotaryRange } from '#shared/scenario/rotary.ts';
import type { Check, Instrument } from '#shared/scenario/schema.ts';
import type { Callout } from './callout.ts';
import { settled } from './run.ts';
import type { Chosen, Reading, Refusal, Setting } from './state.ts';
import { trueValue, type Taking } from './take-check.ts';

/** An instrument as it was set, with what it stands on. */
export interface AsSet {
	readonly chosen: Chosen;
	readonly own: Instrument;
	/** Null where the instrument sets its range itself. */
	readonly range: RotaryRange | null;
}

/** Less than this of the value shown is fine enough to count as the check taken as it is meant. */
const fineShare = 0.01;
/** What a wire picks up from its neighbours drives no current: only a mains voltage blows the fuse of a meter [V]. */
const blowsFromV = 100;

/** Whether the choice can be made of this check's instrument, and what it comes to. */
export function setByHand({ pack }: Pick<Callout, 'pack'>, check: Check, chosen: Chosen): AsSet | Refusal {
	const own = instrumentOf(pack, check);
	if (!own) return { refused: `"${check.name}" is taken without an instrument: there is nothing to set.` };
	const range = chosen.range === undefined ? null : rangeFor(pack, check, chosen.range);
	if (range === undefined) return { refused: `The ${toolOf(own)} has no range "${chosen.range}".` };
	const [a, b] = chosen.terminals ?? [];
	if (a !== undefined) {
		const points = check.terminals?.points ?? [];
		const unknown = [a, b].find((lead) => !points.some(({ id }) => id === lead));
		if (unknown !== undefined) return { refused: `"${check.name}" has no test point "${unknown}".` };
		if (a === b) return { refused: 'Both leads are on one point: put them on two.' };
	}
	return { chosen, own, range };
}

/** Whether an ohms range is about to be put across a circuit with its supply on, and whether that blows the meter's fuse. */
export function ohmsOnLive(callout: Callout, check: Check, { range, chosen }: AsSet, taking: Pick<Taking, 'demand' | 'cured'>) {
	const onLive = check.live && range?.measures === 'ohms';
	return { onLive, blown: onLive && between(callout, check, chosen, taking).value >= blowsFromV };
}

/** The reading of a check with its instrument set by hand. */
export function takeAsSet(
	callout: Callout,
	check: Check,
	set: AsSet,
	taking: Taking
): Observed & { readonly unit: string; readonly setting: Setting } {
	const { own, range, chosen } = set;
	const display: Display = range ?? own;
	const fits = range === null || range.measures === own.measures;
	const found = fits ? between(callout, check, chosen, taking) : { value: 0, reads: null };
	// The whole of what stands on it must fit the range, whatever change of it is read.
	const swamped = check.carries !== undefined && settled(callout, taking.cured, taking.demand)[check.carries]! > (display.over ?? Infinity);
	const { id, reads } = check;
	const stream = chance(callout.seed, 'set', id, taking.demand, taking.occasion, range?.id ?? '', ...(chosen.terminals ?? []));
	// A range that measures something else has nothing to measure.
	const nought = { value: 0, text: formatNumber(0, decimalsOf(display.resolution)) };
	const shown = fits ? observe(swamped ? Infinity : found.value, display, stream) : nought;
	const stands = swamped || found.reads === null ? null : found.reads === reads ? id : standsFor(callout, check, found.reads, taking);
	return {
		...shown,
		unit: fits ? check.unit : (range?.unit ?? check.unit),
		setting: { ...chosen, stands, whole: stands !== null && isFine(shown.value, found.value, set) }
	};
}

/** The check that a reading counts as: its own, or the one whose quantity was in truth read; null for one that shows neither well. */
export function shownCheck({ check, setting }: Pick<Reading, 'check' | 'setting'>): string | null {
	if (!setting) return check;
	return setting.whole ? setting.stands : null;
}

/** What stands between the points that the leads are on. `reads` is null where it is no quantity of the model on its own. */
function between(callout: Callout, check: Check, { terminals: leads }: Chosen, { demand, cured }: Pick<Taking, 'demand' | 'cured'>) {
	const offered = check.terminals;
	if (!leads || !offered || isPair(offered.between, leads)) return { value: trueValue(callout, check, demand, cured), reads: check.reads };
	const other = offered.others.find((pair) => isPair(pair.between, leads));
	if (!other) throw new RangeError(`the check "${check.id}" does not say what lies between ${leads.join(' and ')}`);
	const { reads, less, times } = other;
	if (reads === 'nothing') return { value: 0, reads: null };
	if (reads === 'open') return { value: Infinity, reads: null };
	const run = settled(callout, cured, demand);
	const value = less === undefined ? run[reads]! : Math.abs(run[reads]! - run[less]!);
	return { value: value * times, reads: less === undefined && times === 1 ? reads : null };
}

export function isPair(one: readonly [string, string], other: readonly [string, string]): boolean {
	return (one[0] === other[0] && one[1] === other[1]) || (one[0] === other[1] && one[1] === other[0]);
}

/** Another check of the same quantity, under the same demand, with the same instrument. */
function standsFor({ pack }: Callout, check: Check, reads: string, { demand }: Taking): string | null {
	const other = pack.checks.find((one) => one.reads === reads && one.instrument === check.instrument && one.under.includes(demand));
	return other?.id ?? null;
}

/** Whether what is shown is as good as the instrument would have shown if it had set itself. */
function isFine(shown: number, trueValue: number, { own, range }: AsSet): boolean {
	if (range === null) return true;
	if (!Number.isFinite(shown)) return trueValue > (own.over ?? Infinity) || trueValue === Infinity;
	return range.resolution <= Math.max(own.resolution, fineShare * Math.abs(shown));
}
