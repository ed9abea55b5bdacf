/**
 * What a sound appliance reads, for readings already taken and already judged. The band is of the family and not of this appliance, so it
 * tells nothing about the fault; it is held back until the learner has said what the reading meant.
 */
import { shownCheck } from '#shared/callout/setting.ts';
import type { CalloutState, Reading } from '#shared/callout/state.ts';
import { bandOf } from '#shared/callout/take-check.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { anyOf } from '#shared/quantity/any-of.ts';
import { decimalsOf, formatNumber } from '#shared/quantity/format.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { undisturbed } from './reasons.ts';

export interface SoundBand {
	readonly event: number;
	readonly check: string;
	/** Nine sound appliances in ten read this: `46.1 to 52.3 degC`, `warm or hot`. */
	readonly says: string;
	/** Where the reading stands; for words in the order of the check's own words. */
	readonly stands: 'below' | 'within' | 'above';
}

/**
 * The bands of a sound appliance that the learner may see now.
 * @returns one for each reading of a quantity that a later `judge` follows; none for what the customer was asked
 */
export function soundBands(pack: Pack, state: CalloutState, table: EvidenceTable): SoundBand[] {
	const judgedAt = state.events.findLast(({ action }) => action.kind === 'judge')?.index ?? -1;
	return state.readings.filter(({ event }) => event < judgedAt).flatMap((reading) => bandFor(pack, reading, table) ?? []);
}

function bandFor(pack: Pack, reading: Reading, table: EvidenceTable): SoundBand | null {
	// A band beside a range too low, or beside other terminals, would compare what is not alike, and tell what lies past the range.
	if (reading.setting && (shownCheck(reading) !== reading.check || !Number.isFinite(reading.value))) return null;
	const check = pack.checks.find(({ id }) => id === reading.check);
	const column = table.columns.find(({ check: id, demand }) => id === reading.check && demand === reading.demand);
	if (!check || !column || check.way === 'ask') return null;
	const { from, to } = column.healthy;
	const edge = (value: number) => (check.words ? bandOf(check, value) : shownAs(pack, check, value));
	const stands = reading.value < edge(from) ? 'below' : reading.value > edge(to) ? 'above' : 'within';
	return { event: reading.event, check: check.id, says: bandWords(pack, check, from, to), stands };
}

/** A value as the instrument would show it, so that what is compared is what is seen. */
export function shownAs(pack: Pack, check: Check, value: number): number {
	if (!Number.isFinite(value)) return value;
	const { resolution = 1 } = pack.instruments.find(({ id }) => id === check.instrument) ?? {};
	return Number(formatNumber(value, decimalsOf(resolution)));
}

/** The span from one value to another as it would be read: `46.1 to 52.3 degC`, `warm or hot`. */
export function bandWords(pack: Pack, check: Check, from: number, to: number): string {
	const [low, high] = [undisturbed(pack, check, from), undisturbed(pack, check, to)];
	if (low === high) return low;
	if (!check.words) return `${check.unit && low.endsWith(` ${check.unit}`) ? low.slice(0, -check.unit.length - 1) : low} to ${high}`;
	const words = check.words.slice(bandOf(check, from), bandOf(check, to) + 1).map(({ word }) => word);
	return words.length > 3 ? `${low} to ${high}` : anyOf(words);
}
