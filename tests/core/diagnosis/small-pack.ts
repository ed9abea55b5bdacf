/** A pack of three faults and three checks, and tables over it, small enough to work out by hand. Invented. */
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';

export const smallPack = {
	hash: 'small',
	faults: [
		{ id: 'first', cured: ['fit-one'] },
		{ id: 'second', cured: ['fit-two'] },
		{ id: 'third', cured: ['fit-two', 'clean'] }
	],
	remedies: [{ id: 'fit-one' }, { id: 'fit-two' }, { id: 'clean' }],
	complaints: [{ id: 'cold' }, { id: 'tepid' }],
	instruments: [
		{ id: 'thermometer', error: 0.5, errorShare: 0, resolution: 0.1, fetched: true },
		{
			id: 'ohmmeter',
			error: 1,
			errorShare: 0.01,
			resolution: 1,
			over: 1000,
			fetched: true,
			measures: 'ohms',
			ranges: [
				{ id: 'low', name: 'low', error: 0.1, resolution: 0.1, over: 100 },
				{ id: 'high', name: 'high', error: 1000, resolution: 1000, over: 1e6 }
			]
		}
	],
	checks: [
		{ id: 'temperature', instrument: 'thermometer', under: ['tap'], misjudged: 0 },
		{ id: 'ohms', instrument: 'ohmmeter', under: ['none'], misjudged: 0 },
		{ id: 'feel', words: [{ word: 'cold', below: 25 }, { word: 'warm', below: 45 }, { word: 'hot' }], under: ['tap'], misjudged: 0.1 }
	]
} as unknown as Pack;

const rowsOfFault = 60;
/** An even spread about a middle, the same at every call. */
const about = (middle: number, width: number, row: number) => middle + width * ((row + 0.5) / rowsOfFault - 0.5);

/** Faults at 20, 40 and 42 degC; the ohms of the second are an open circuit. */
export function smallTable(): EvidenceTable {
	const faults = [0, 1, 2];
	const each = (value: (fault: number, row: number) => number) =>
		Float32Array.from(faults.flatMap((fault) => Array.from({ length: rowsOfFault }, (_, row) => value(fault, row))));
	const smoothing = Float32Array.from([0.3, 0.3, 0.3]);
	const healthy = (mean: number) => ({
		mean,
		sd: 1,
		from: mean - 2,
		to: mean + 2,
		values: Float32Array.from({ length: 40 }, (_, i) => mean + (i - 20) / 20)
	});
	const rows = rowsOfFault * faults.length;
	return {
		packHash: 'small',
		rows,
		fault: Uint16Array.from(faults.flatMap((fault) => Array.from({ length: rowsOfFault }, () => fault))),
		severity: each((_, row) => (row + 0.5) / rowsOfFault),
		prior: Float64Array.from({ length: rows }, () => 1 / rows),
		complaints: Uint32Array.from({ length: rows }, (_, row) => (row < rowsOfFault ? 0b01 : row % 2 ? 0b10 : 0b11)),
		columns: [
			{
				check: 'temperature',
				demand: 'tap',
				values: each((fault, row) => about([20, 40, 42][fault], 4, row)),
				smoothing,
				healthy: healthy(50)
			},
			{
				check: 'ohms',
				demand: 'none',
				values: each((fault, row) => (fault === 1 ? Infinity : about(400, 20, row))),
				smoothing,
				healthy: healthy(400)
			},
			{ check: 'feel', demand: 'tap', values: each((fault, row) => about([20, 40, 42][fault], 4, row)), smoothing, healthy: healthy(50) }
		]
	};
}
