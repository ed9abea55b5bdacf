/** Signals of one machine over time. */
import type { Machine } from '#shared/callout/callout.ts';
import { machineFrom, machineOptions, notAMachine } from '../machine.ts';
import * as option from '../options.ts';
import { table } from '../table.ts';
import type { Given, Verb } from '../verb.ts';

interface Result {
	readonly family: string;
	readonly fault: string;
	readonly severity: number;
	readonly seed: number;
	readonly demand: string;
	readonly seconds: readonly number[];
	readonly signals: Readonly<Record<string, readonly number[]>>;
}

/** Rows that fit a terminal. */
const mostRows = 40;

export const trace: Verb = {
	name: 'trace',
	says: 'Signals over time of one machine under a demand.',
	options: { ...machineOptions, demand: option.demand, seconds: option.seconds, step: option.step },
	run(given): Result {
		const pack = given.must(option.family);
		const demand = given.must(option.demand);
		const machine = machineFrom(given);
		const { seconds, signals } = traced(machine, given, () =>
			pack.model.trace(machine.faulty, demand, given.must(option.seconds), given.may(option.step))
		);
		return {
			family: pack.family.id,
			fault: machine.fault?.id ?? 'none',
			severity: machine.severity,
			seed: given.must(option.seed),
			demand,
			seconds: [...seconds],
			signals: Object.fromEntries(Object.entries(signals).map(([name, values]) => [name, [...values]]))
		};
	},
	show({ seconds, signals }: Result): string {
		const every = Math.ceil(seconds.length / mostRows);
		const names = Object.keys(signals);
		const rows = seconds.flatMap((second, i) => (i % every === 0 ? [[second, ...names.map((name) => signals[name]![i])]] : []));
		return table(['seconds', ...names], rows);
	}
};

function traced<T>(machine: Machine, given: Given, run: () => T): T {
	try {
		return run();
	} catch (error) {
		if (!(error instanceof RangeError)) throw error;
		throw notAMachine(machine, given, error.message);
	}
}
