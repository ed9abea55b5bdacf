/** What is worked out once from an evidence table and used at every reading: where a column is, how far its values reach, spreads. */
import type { Demand } from '#shared/appliance/model.ts';
import { errorSd, type Display } from '#shared/quantity/instrument.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check, Instrument } from '#shared/scenario/schema.ts';
import type { Column, EvidenceTable } from './evidence.ts';

/** How a check turns a true value into a reading. */
export interface Gauge {
	/** Standard deviation of the instrument at a true value, its rounding included. */
	readonly sdAt: (value: number) => number;
	/** Upper bounds of the word bands, without the last; null for a number. */
	readonly bands: readonly number[] | null;
	readonly misjudged: number;
	/** Above this it shows over range. */
	readonly over: number;
}

export interface ColumnFacts {
	readonly index: number;
	readonly column: Column;
	readonly check: Check;
	readonly gauge: Gauge;
	/** Least and greatest value that a number can be shown for. */
	readonly low: number;
	readonly high: number;
	/** Whether some rows read over range. */
	readonly passesOver: boolean;
	/** Width over which a blundered reading may fall. */
	readonly reach: number;
	/** Standard deviation of the values within each fault. */
	readonly spread: Float64Array;
}

interface TableFacts {
	readonly byKey: ReadonlyMap<string, ColumnFacts>;
	readonly all: readonly ColumnFacts[];
	/** Rows of each fault: first and one past the last; rows of one fault lie together. */
	readonly from: Int32Array;
	readonly to: Int32Array;
}

const cache = new WeakMap<EvidenceTable, TableFacts>();

export const columnKey = (check: string, demand: Demand) => `${check}|${demand}`;

/** @throws RangeError where the table holds a check that the pack does not, or rows of a fault apart from each other */
export function tableFacts(pack: Pack, table: EvidenceTable): TableFacts {
	const known = cache.get(table);
	if (known) return known;
	const faults = pack.faults.length;
	const from = new Int32Array(faults);
	const to = new Int32Array(faults);
	for (let row = 0; row < table.rows; row++) {
		const fault = table.fault[row];
		if (row === 0 || table.fault[row - 1] !== fault) {
			if (to[fault] > 0) throw new RangeError(`evidence rows of fault "${pack.faults[fault].id}" do not lie together`);
			from[fault] = row;
		}
		to[fault] = row + 1;
	}
	const all = table.columns.map((column, index) => {
		const check = pack.checks.find((c) => c.id === column.check);
		if (!check) throw new RangeError(`evidence has a column for check "${column.check}", which the pack has not`);
		return describe(pack, check, column, index, from, to);
	});
	const facts = { byKey: new Map(all.map((f) => [columnKey(f.column.check, f.column.demand), f])), all, from, to };
	cache.set(table, facts);
	return facts;
}

function describe(pack: Pack, check: Check, column: Column, index: number, from: Int32Array, to: Int32Array): ColumnFacts {
	const gauge = gaugeOf(check, pack.instruments);
	let low = Infinity;
	let high = -Infinity;
	let passesOver = false;
	for (const value of column.values) {
		if (value >= gauge.over) passesOver = true;
		else {
			if (value < low) low = value;
			if (value > high) high = value;
		}
	}
	if (high < low) low = high = 0;
	const spread = Float64Array.from(from, (start, fault) => {
		const shown = column.values.subarray(start, to[fault]).filter((value) => value < gauge.over);
		return shown.length > 1 ? standardDeviation(shown) : 0;
	});
	return { index, column, check, gauge, low, high, passesOver, reach: reachOf(gauge, { low, high }), spread };
}

/** Width over which a blundered reading may fall. */
export function reachOf(gauge: Pick<Gauge, 'sdAt'>, { low, high }: Pick<ColumnFacts, 'low' | 'high'>): number {
	return high - low + 6 * gauge.sdAt(high);
}

/** The instrument of a check, or the sense that stands in for one. @throws RangeError where the check has neither */
export function gaugeOf(check: Check, instruments: readonly Instrument[]): Gauge {
	if (check.words) {
		const bands = check.words.slice(0, -1).map((band) => band.below ?? Infinity);
		return { sdAt: () => 0, bands, misjudged: check.misjudged, over: Infinity };
	}
	const instrument = instruments.find((i) => i.id === check.instrument);
	if (!instrument) throw new RangeError(`check "${check.id}" has neither words nor a known instrument`);
	return gaugeOfDisplay(instrument);
}

export function gaugeOfDisplay(display: Display): Gauge {
	return { sdAt: (value) => errorSd(value, display), bands: null, misjudged: 0, over: display.over ?? Infinity };
}

export function standardDeviation(values: ArrayLike<number>): number {
	if (values.length < 2) return 0;
	let sum = 0;
	let squares = 0;
	for (let i = 0; i < values.length; i++) sum += values[i];
	const mean = sum / values.length;
	for (let i = 0; i < values.length; i++) squares += (values[i] - mean) ** 2;
	return Math.sqrt(squares / (values.length - 1));
}
