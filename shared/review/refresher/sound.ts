/** What sound machines of a family read, from a sample of them. Nothing is looked up: each is drawn and run. */
import type { Demand, Quantities } from '#shared/appliance/model.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { bandOf } from '#shared/callout/take-check.ts';
import { bandWords, shownAs } from '#shared/marking/sound-band.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';

/** Machines drawn of a family, sound; and of each fault that is looked into. */
const soundOnes = 60;
const faultyOnes = 12;
/** What of them is left out at either end. */
const leftOut = 0.05;
/** Far from the seeds by which callouts are drawn in tests. */
const firstSeed = 9_100_000;

export type Runs = readonly (readonly [Demand, Quantities])[];

/** What nine in ten of them read at a check, as it is shown. */
export interface Span {
	/** Rounded as the instrument rounds; for words, the number of the band. */
	readonly from: number;
	readonly to: number;
	/** `46.1 to 52.3 degC`, `warm or hot`. */
	readonly says: string;
}

const known = new WeakMap<Pack, Runs[]>();

function soundRuns(pack: Pack): Runs[] {
	let runs = known.get(pack);
	if (!runs) {
		runs = runsOf(pack, 'none', soundOnes);
		known.set(pack, runs);
	}
	return runs;
}

function runsOf(pack: Pack, fault: string, count: number): Runs[] {
	return Array.from({ length: count }, (_, index) => {
		const { faulty } = sampleMachine(pack, firstSeed + index, { fault });
		return pack.family.demands.map(({ id }) => [id, pack.model.settle(faulty, id)] as const);
	});
}

const valuesAt = (runs: readonly Runs[], check: Check, demand: Demand): number[] =>
	runs.flatMap((run) => run.flatMap(([id, quantities]) => (id === demand ? [quantities[check.reads]] : [])));

const shown = (pack: Pack, check: Check, value: number): number => (check.words ? bandOf(check, value) : shownAs(pack, check, value));

/** @returns what nine sound ones in ten read; null for what is asked of the customer */
export function soundSpan(pack: Pack, check: Check, demand: Demand): Span | null {
	if (check.way === 'ask' || check.reads.startsWith('fact.')) return null;
	const rising = valuesAt(soundRuns(pack), check, demand).sort((a, b) => a - b);
	const at = (share: number) => rising[Math.round(share * (rising.length - 1))];
	const [low, high] = [at(leftOut), at(1 - leftOut)];
	return { from: shown(pack, check, low), to: shown(pack, check, high), says: bandWords(pack, check, low, high) };
}

const faulty = new WeakMap<Pack, Map<string, Runs[]>>();

/** What machines with a fault show at a check, each its own severity. */
export function shownWith(pack: Pack, fault: string, check: Check, demand: Demand): number[] {
	let byFault = faulty.get(pack);
	if (!byFault) faulty.set(pack, (byFault = new Map()));
	let runs = byFault.get(fault);
	if (!runs) byFault.set(fault, (runs = runsOf(pack, fault, faultyOnes)));
	return valuesAt(runs, check, demand).map((value) => shown(pack, check, value));
}
