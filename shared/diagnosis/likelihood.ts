/**
 * How likely a reading is on each machine of the evidence table.
 *
 * A number: normal about the machine's true value, with the instrument's error, its rounding and the table's smoothing. A word: the band
 * that the smoothed true value falls in, with the honest chance of taking the next band for it. Either way a small chance that the
 * reading was blundered keeps one odd reading from ruling out the truth.
 */
import type { Pack } from '#shared/scenario/pack.ts';
import type { Setting } from '#shared/callout/state.ts';
import { rangeFor } from '#shared/scenario/rotary.ts';
import { tableFacts, columnKey, gaugeOfDisplay, reachOf } from './column-facts.ts';
import type { ColumnFacts, Gauge } from './column-facts.ts';
import type { EvidenceTable } from './evidence.ts';
import { normalBelow, normalDensity } from './normal.ts';

/** What suspicion needs of a reading: what was shown, where, and which remedies had been done. */
export interface Evidence {
	readonly check: string;
	readonly demand: ColumnFacts['column']['demand'];
	readonly value: number;
	readonly after: readonly string[];
	/** Where the instrument was set by hand: weighed as what it in truth read, on the range that it was on. */
	readonly setting?: Pick<Setting, 'stands' | 'range'>;
}

/** Chance that a reading is a blunder and says nothing. */
export const blunderChance = 0.015;

/** Chance of each word band for a true value known to within `smoothing`, misjudging by one band included. */
export function bandChances(gauge: Gauge, value: number, smoothing: number): number[] {
	const bounds = gauge.bands ?? [];
	const below = (bound: number) => (smoothing > 0 ? normalBelow((bound - value) / smoothing) : value < bound ? 1 : 0);
	const upTo = [...bounds.map(below), 1];
	return misjudge(
		upTo.map((chance, band) => chance - (band > 0 ? upTo[band - 1] : 0)),
		gauge.misjudged
	);
}

/** A band is taken for a neighbour with this chance, for either alike; at the ends for the only one. */
export function misjudge(chances: readonly number[], chance: number): number[] {
	if (chance === 0 || chances.length < 2) return [...chances];
	const last = chances.length - 1;
	const passes = (from: number) => chances[from] * (from === 0 || from === last ? chance : chance / 2);
	return chances.map((own, band) => own * (1 - chance) + (band > 0 ? passes(band - 1) : 0) + (band < last ? passes(band + 1) : 0));
}

/** Likelihood of one reading on one true value; a density for numbers, a chance for words and for over range. */
export function readingLikelihood(facts: ColumnFacts, reading: number, value: number, smoothing: number): number {
	const { gauge, reach } = facts;
	if (gauge.bands) {
		return (1 - blunderChance) * bandChances(gauge, value, smoothing)[reading] + blunderChance / (gauge.bands.length + 1);
	}
	if (value === Infinity) return Number.isFinite(reading) ? blunderChance / reach : 1 - blunderChance / 2;
	const sd = Math.hypot(gauge.sdAt(value), smoothing);
	if (!Number.isFinite(reading)) return (1 - blunderChance) * normalBelow((value - gauge.over) / sd) + blunderChance / 2;
	return (1 - blunderChance) * normalDensity(reading, value, sd) + blunderChance / reach;
}

/** Which faults these remedies cure. */
export function curedFaults(pack: Pack, remedies: readonly string[]): boolean[] {
	return pack.faults.map((fault) => fault.cured.some((remedy) => remedies.includes(remedy)));
}

/**
 * Logarithm of the likelihood of a reading on every row. A row whose fault an earlier remedy cures is by then a sound machine, and is
 * judged against the healthy sample.
 * @param widen share of the spread within a fault added to the smoothing, when few rows are left to stand for the truth
 * @returns null where the table has no column for the reading, or an instrument set by hand read nothing of the appliance: it says nothing
 */
export function logLikelihood(pack: Pack, table: EvidenceTable, reading: Evidence, widen = 0): Float64Array | null {
	const { from, to } = tableFacts(pack, table);
	const facts = factsOf(pack, table, reading);
	if (!facts) return null;
	const { values, smoothing } = facts.column;
	const out = new Float64Array(table.rows);
	const cured = curedFaults(pack, reading.after);
	const sound = cured.includes(true) ? healthyLikelihood(facts, reading.value) : 0;
	const likelihood = facts.gauge.bands ? wordLikelihood(facts, reading.value) : null;
	for (let fault = 0; fault < pack.faults.length; fault++) {
		if (cured[fault]) {
			out.fill(Math.log(sound), from[fault], to[fault]);
			continue;
		}
		const smooth = Math.hypot(smoothing[fault], widen * facts.spread[fault]);
		for (let row = from[fault]; row < to[fault]; row++) {
			out[row] = Math.log(likelihood ? likelihood(values[row], smooth) : readingLikelihood(facts, reading.value, values[row], smooth));
		}
	}
	return out;
}

/** Likelihood of one reading on a sound machine of the family. */
export function healthyLikelihood(facts: ColumnFacts, reading: number): number {
	const { sd, values } = facts.column.healthy;
	// A smooth stand-in for the healthy machines not sampled, after Silverman's rule for a density of this many values.
	const width = 1.06 * sd * values.length ** -0.2;
	return values.reduce((sum, value) => sum + readingLikelihood(facts, reading, value, width), 0) / values.length;
}

/** The column that a reading is of, with the range that it was read on. */
export function factsOf(pack: Pack, table: EvidenceTable, { check, demand, setting }: Evidence): ColumnFacts | undefined {
	const of = setting ? setting.stands : check;
	const facts = of === null ? undefined : tableFacts(pack, table).byKey.get(columnKey(of, demand));
	const range = facts && setting?.range !== undefined && rangeFor(pack, facts.check, setting.range);
	if (!range) return facts;
	const gauge = gaugeOfDisplay(range);
	return { ...facts, gauge, reach: reachOf(gauge, facts) };
}

/** Word likelihood of one band, without laying out the chances of all bands for each row. */
function wordLikelihood({ gauge }: ColumnFacts, band: number): (value: number, smoothing: number) => number {
	const bounds = gauge.bands ?? [];
	const last = bounds.length;
	// What each true band adds to hearing this one.
	const unit = Array.from(
		{ length: last + 1 },
		(_, truth) =>
			misjudge(
				Array.from({ length: last + 1 }, (_, b) => (b === truth ? 1 : 0)),
				gauge.misjudged
			)[band]
	);
	const floor = blunderChance / (last + 1);
	return (value, smoothing) => {
		let below = 0;
		let sum = 0;
		for (let b = 0; b <= last; b++) {
			const upTo = b === last ? 1 : smoothing > 0 ? normalBelow((bounds[b] - value) / smoothing) : value < bounds[b] ? 1 : 0;
			if (upTo > below) sum += unit[b] * (upTo - below);
			below = upTo;
		}
		return (1 - blunderChance) * sum + floor;
	};
}
