/** How many times likelier a reading is on machines with a fault than where that fault is not. */
import type { Pack } from '#shared/scenario/pack.ts';
import { bandOf } from '#shared/callout/take-check.ts';
import { tableFacts } from './column-facts.ts';
import type { ColumnFacts } from './column-facts.ts';
import type { EvidenceTable } from './evidence.ts';
import { factsOf, healthyLikelihood, readingLikelihood } from './likelihood.ts';
import type { Evidence } from './likelihood.ts';

/** A reading shows a fault, and readings do together, where they are so many times likelier with it. */
export const shownFrom = 15;

/** Machines of each fault, evenly by severity, whose readings stand for what one with the fault would read. */
const machinesAsked = 12;
/** A fault reads otherwise than a sound appliance where at least this share of its machines does. */
const oftenEnough = 0.1;

interface Kept {
	readonly ofReading: WeakMap<Evidence, Map<number, number>>;
	readonly ofMachines: Map<string, Float64Array>;
	readonly differs: Map<number, boolean>;
}

const cache = new WeakMap<EvidenceTable, Kept>();

function keptFor(table: EvidenceTable): Kept {
	let kept = cache.get(table);
	if (!kept) cache.set(table, (kept = { ofReading: new WeakMap(), ofMachines: new Map(), differs: new Map() }));
	return kept;
}

/**
 * How many times likelier this reading is with the fault than on a sound appliance, each of the fault's machines counted by how often it is
 * met. Where no check that shows the fault can read otherwise than on a sound appliance (a board that makes nothing of what reaches it), it
 * is told by what it is not, and the reading counts over the fault that it speaks against the most.
 * @param fault index into `pack.faults`
 * @returns >= 0; 1 for a reading of no column, and for one taken after a remedy that cures the fault
 */
export function timesLikelier(pack: Pack, table: EvidenceTable, fault: number, reading: Evidence): number {
	const { ofReading } = keptFor(table);
	let byFault = ofReading.get(reading);
	if (!byFault) ofReading.set(reading, (byFault = new Map()));
	let times = byFault.get(fault);
	if (times === undefined) {
		const facts = factsOf(pack, table, reading);
		const cured = pack.faults[fault].cured.some((remedy) => reading.after.includes(remedy));
		times = facts && !cured ? timesOf(pack, table, fault, facts, reading.value, differsFromSound(pack, table, fault)) : 1;
		byFault.set(fault, times);
	}
	return times;
}

/**
 * The same of what machines with the fault would read in one column, undisturbed.
 * @returns of a few machines, the severity rising
 */
export function timesOfMachines(pack: Pack, table: EvidenceTable, fault: number, facts: ColumnFacts): Float64Array {
	return ofMachines(pack, table, fault, facts, differsFromSound(pack, table, fault));
}

/** Whether a check that shows the fault can, under some demand, read otherwise than on a sound appliance. */
function differsFromSound(pack: Pack, table: EvidenceTable, fault: number): boolean {
	const { differs } = keptFor(table);
	let known = differs.get(fault);
	if (known === undefined) {
		known = tableFacts(pack, table).all.some((facts) => {
			if (!pack.faults[fault].shown.includes(facts.check.id)) return false;
			const times = ofMachines(pack, table, fault, facts, true);
			return times.filter((each) => each >= shownFrom).length >= oftenEnough * times.length;
		});
		differs.set(fault, known);
	}
	return known;
}

function ofMachines(pack: Pack, table: EvidenceTable, fault: number, facts: ColumnFacts, overSound: boolean): Float64Array {
	const { ofMachines: known } = keptFor(table);
	const key = `${fault} ${facts.index} ${overSound}`;
	let times = known.get(key);
	if (!times) {
		const { from, to } = tableFacts(pack, table);
		const count = to[fault] - from[fault];
		const asked = Math.min(machinesAsked, count);
		const byReading = new Map<number, number>();
		times = Float64Array.from({ length: asked }, (_, at) => {
			const value = facts.column.values[from[fault] + Math.floor(((at + 0.5) * count) / asked)];
			const reading = facts.check.words ? bandOf(facts.check, value) : value >= facts.gauge.over ? Infinity : value;
			if (!byReading.has(reading)) byReading.set(reading, timesOf(pack, table, fault, facts, reading, overSound));
			return byReading.get(reading)!;
		});
		known.set(key, times);
	}
	return times;
}

function timesOf(pack: Pack, table: EvidenceTable, fault: number, facts: ColumnFacts, reading: number, overSound: boolean): number {
	const own = meanLikelihood(pack, table, fault, facts, reading);
	if (overSound) return own / healthyLikelihood(facts, reading);
	const others = pack.faults.map((_, other) => (other === fault ? own : meanLikelihood(pack, table, other, facts, reading)));
	return own / Math.min(...others.filter((likelihood) => likelihood > 0));
}

/** Of the fault's machines, each counted by how often it is met; 0 where the table holds none. */
function meanLikelihood(pack: Pack, table: EvidenceTable, fault: number, facts: ColumnFacts, reading: number): number {
	const { from, to } = tableFacts(pack, table);
	const { values, smoothing } = facts.column;
	const known = new Map<number, number>();
	let sum = 0;
	let weight = 0;
	for (let row = from[fault]; row < to[fault]; row++) {
		// Many machines stand at the very same value: lit or not, open or shut.
		let likelihood = known.get(values[row]);
		if (likelihood === undefined) known.set(values[row], (likelihood = readingLikelihood(facts, reading, values[row], smoothing[fault])));
		sum += table.prior[row] * likelihood;
		weight += table.prior[row];
	}
	return weight > 0 ? sum / weight : 0;
}
