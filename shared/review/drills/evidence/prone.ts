/**
 * How readily each column reads as sound ones do, or otherwise, with each fault. From the machines of the evidence table and without any
 * error of the instrument: enough to know where to look for something to ask, never what is right.
 */
import { tableFacts, type ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { columnsAsked } from './likely.ts';

/** Of the machines with one fault, the share that reads below, within and above what sound machines read under this column. */
export interface Prone {
	readonly facts: ColumnFacts;
	readonly fault: number;
	readonly low: number;
	readonly within: number;
	readonly high: number;
}

const cache = new WeakMap<EvidenceTable, readonly Prone[]>();

/** For each column asked about and each fault. Worked out once for a table. */
export function proneOf(pack: Pack, table: EvidenceTable): readonly Prone[] {
	let known = cache.get(table);
	if (!known) {
		const { from, to } = tableFacts(pack, table);
		known = columnsAsked(pack, table).flatMap((facts) => {
			const [least, most] = soundSpan(facts);
			return pack.faults.flatMap((_, fault) => {
				const values = facts.column.values.subarray(from[fault], to[fault]);
				if (values.length === 0) return [];
				const share = (is: (value: number) => boolean) => values.reduce((sum, value) => sum + (is(value) ? 1 : 0), 0) / values.length;
				const low = share((value) => value < least);
				const high = share((value) => value > most);
				return [{ facts, fault, low, high, within: 1 - low - high }];
			});
		});
		cache.set(table, known);
	}
	return known;
}

/** The least and the greatest true value that is read like those of nine sound machines in ten: for words, of the same bands. */
function soundSpan({ column, gauge }: ColumnFacts): [number, number] {
	const { from, to } = column.healthy;
	if (!gauge.bands) return [from - 3 * gauge.sdAt(from), to + 3 * gauge.sdAt(to)];
	const least = gauge.bands.findLast((bound) => bound <= from) ?? -Infinity;
	const above = gauge.bands.find((bound) => bound > to) ?? Infinity;
	// The upper bound of a band belongs to the next.
	return [least, above === Infinity ? Infinity : above - Math.abs(above) * 1e-9];
}
