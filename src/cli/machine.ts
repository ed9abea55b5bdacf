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

/** @throws BadInput where the values set by hand make a machine that cannot be run */
export function settledOf(pack: Pack, machine: Machine, demand: Demand): Quantities {
	let run: Quantities;
	try {
		run = pack.model.settle(machine.faulty, demand);
	} catch (error) {
		if (!(error instanceof RangeError)) throw error;
		throw new BadInput('--set', `values that make a machine (${error.message})`, 'these');
	}
	const strange = Object.entries(run).find(([key, value]) => isStrange(key, value));
	if (strange) {
		throw new BadInput('--set', `values that make a machine ("${strange[0]}" comes to ${strange[1]} under "${demand}")`, 'these');
	}
	return run;
}

/** No water or gas of a domestic appliance is outside these [degC]; a run that gets there has left what the model is made for. */
const believableC = { from: -30, to: 200 };

function isStrange(key: string, value: number): boolean {
	if (Number.isNaN(value)) return true;
	return key.endsWith('TempC') && (value < believableC.from || value > believableC.to);
}
