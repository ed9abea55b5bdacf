/** The machine that `--family --fault --severity --seed --set` name. */
import type { Demand, Quantities } from '#shared/appliance/model.ts';
import type { Machine } from '#shared/callout/callout.ts';
import { makeCallout, NoComplaint } from '#shared/callout/make.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { BadInput } from './bad-input.ts';
import * as option from './options.ts';
import { overridesFrom } from './overrides.ts';
import type { Given } from './verb.ts';

export const machineOptions = {
	family: option.family,
	fault: option.fault,
	severity: option.severity,
	seed: option.seed,
	set: option.assignment
} as const;

/**
 * With a severity, or with no fault, the machine as asked for, whether or not anybody would complain of it; otherwise that of the seed's
 * callout.
 */
export function machineFrom(given: Given): Machine {
	const pack = given.must(option.family);
	const seed = given.must(option.seed);
	const fault = given.may(option.fault);
	const severity = given.may(option.severity);
	const overrides = overridesFrom(pack, given.all(option.assignment));
	if (severity !== undefined || fault === 'none') return sampleMachine(pack, seed, { fault, severity, overrides });
	return complainedOf(() => makeCallout(pack, seed, fault, { overrides }), fault);
}

/** @throws BadInput where nobody would have called */
export function complainedOf<T>(make: () => T, fault: string | undefined): T {
	try {
		return make();
	} catch (error) {
		if (!(error instanceof NoComplaint)) throw error;
		throw new BadInput('--fault', `a fault that somebody would complain of in this household (${error.message})`, fault ?? 'any');
	}
}

/** @throws BadInput where what was given makes a machine that cannot be run, naming that of it which is likeliest to blame */
export function settledOf(pack: Pack, machine: Machine, demand: Demand, given: Given): Quantities {
	let run: Quantities;
	try {
		run = pack.model.settle(machine.faulty, demand);
	} catch (error) {
		if (!(error instanceof RangeError)) throw error;
		throw notAMachine(machine, given, error.message);
	}
	const strange = Object.entries(run).find(([key, value]) => isStrange(key, value));
	if (strange) throw notAMachine(machine, given, `"${strange[0]}" comes to ${strange[1]} under "${demand}"`);
	return run;
}

/** Values set by hand come first, since the pack's own have been tried; then what the fault was made. */
export function notAMachine({ fault, severity }: Machine, given: Given, because: string): BadInput {
	const set = given.all(option.assignment);
	if (set.length > 0) {
		return new BadInput('--set', `values that make a machine (${because})`, set.map(({ key, value }) => `${key}=${value}`).join(' '));
	}
	if (fault === null) return new BadInput('--seed', `one whose household makes a machine (${because})`, String(given.must(option.seed)));
	const argument = given.may(option.severity) === undefined ? '--fault' : '--severity';
	return new BadInput(argument, `what makes a machine that can be run (${because})`, `${fault.id} at ${severity.toFixed(2)}`);
}

/** No water of a domestic appliance is outside the first [degC], nor its flue gas outside the second; a run that gets there has left what the model is made for. */
const believableC = { from: -30, to: 200 };
/** The range that the flue loss is made for. @see Flue in shared/physics/combustion.ts */
const believableFlueC = { from: -30, to: 300 };

function isStrange(key: string, value: number): boolean {
	if (Number.isNaN(value)) return true;
	if (!key.endsWith('TempC')) return false;
	const { from, to } = key === 'flueTempC' ? believableFlueC : believableC;
	return value < from || value > to;
}
