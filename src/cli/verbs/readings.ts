/** Every true quantity and every check's reading of one machine. */
import { demands, type Demand, type Quantities } from '#shared/appliance/model.ts';
import type { Household, Machine } from '#shared/callout/callout.ts';
import { read } from '#shared/callout/take-check.ts';
import { chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { machineFrom, machineOptions, settledOf } from '../machine.ts';
import * as option from '../options.ts';
import { table } from '../table.ts';
import type { Verb } from '../verb.ts';

/** True quantities of a run; the shutdown by its name. */
type Settled = Readonly<Record<string, number | string | null>>;

interface CheckLine {
	readonly id: string;
	readonly demand: Demand;
	/** The true value. */
	readonly value: number;
	/** What is read of it: a number, or words. */
	readonly reading: number | string;
	readonly unit: string;
}

interface Result {
	readonly family: string;
	readonly fault: string;
	readonly severity: number;
	readonly seed: number;
	readonly household: Household;
	readonly settled: Readonly<Partial<Record<Demand, Settled>>>;
	readonly checks: readonly CheckLine[];
}

export const readings: Verb = {
	name: 'readings',
	says: 'True quantities under each demand, and what every check reads, of one machine.',
	options: machineOptions,
	run(given): Result {
		const pack = given.must(option.family);
		const seed = given.must(option.seed);
		const machine = machineFrom(given);
		const offered = demands.filter((demand) => pack.family.demands.some(({ id }) => id === demand));
		const runs = new Map(offered.map((demand) => [demand, settledOf(pack, machine, demand, given)]));
		return {
			family: pack.family.id,
			fault: machine.fault?.id ?? 'none',
			severity: machine.severity,
			seed,
			household: machine.household,
			settled: Object.fromEntries([...runs].map(([demand, run]) => [demand, named(pack, run)])),
			checks: pack.checks.flatMap((check) => check.under.map((demand) => checkLine(pack, machine, check, demand, runs.get(demand)!, seed)))
		};
	},
	show({ family, fault, severity, household, settled, checks }: Result): string {
		const offered = Object.keys(settled) as Demand[];
		const names = Object.keys(settled[offered[0]!]!);
		return [
			`${family}, ${fault} at ${severity.toFixed(2)}. ${household.says} Gas ${household.gas}. Facts: ${household.facts.join(', ') || 'none'}.`,
			table(
				['quantity', ...offered],
				names.map((name) => [name, ...offered.map((demand) => settled[demand]![name])])
			),
			table(
				['check', 'demand', 'true', 'reading', 'unit'],
				checks.map(({ id, demand, value, reading, unit }) => [id, demand, value, String(reading), unit])
			)
		].join('\n\n');
	}
};

function named(pack: Pack, run: Quantities): Settled {
	const { lockout, ...quantities } = run;
	const name = pack.model.lockouts[lockout ?? 0];
	return { ...quantities, lockout: name === undefined || name === 'none' ? null : name };
}

/** As on the first occasion in a callout of this seed. */
function checkLine(pack: Pack, machine: Machine, check: Check, demand: Demand, run: Quantities, seed: number): CheckLine {
	const fact = check.reads.startsWith('fact.') ? check.reads.slice('fact.'.length) : null;
	const value = fact === null ? run[check.reads]! : Number(machine.household.facts.includes(fact));
	const observed = read(pack, check, value, chance(seed, 'check', check.id, demand, 0));
	const reading = check.words || !Number.isFinite(observed.value) ? observed.text : observed.value;
	return { id: check.id, demand, value, reading, unit: check.unit };
}
