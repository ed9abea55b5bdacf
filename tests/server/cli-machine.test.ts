/** A machine that cannot be run is refused in words of what was given, and one of the pack's own is never refused. */
import { describe, expect, it } from 'vitest';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import * as option from '../../src/cli/options.ts';
import { settledOf } from '../../src/cli/machine.ts';
import type { Given } from '../../src/cli/verb.ts';
import { stock, stockNamed } from '../sampled.ts';
import { typed } from './terminal.ts';

it('runs a sooted machine, whose flue gas is hot', async () => {
	for (let seed = 0; seed < 14; seed++) {
		const { code, err } = await typed(`readings --family combi-tap-coil --fault fins-sooted --severity 0.8 --seed ${seed}`);
		expect({ code, err }).toEqual({ code: 0, err: '' });
	}
});

it.each(stock)('runs every fault of $id at its worst', async ({ id, pack }) => {
	for (const { id: fault, severity } of pack.faults) {
		const { err } = await typed(`readings --family ${id} --fault ${fault} --severity ${severity.to} --seed 3`);
		expect(err, fault).toBe('');
	}
});

describe('what cannot be run', () => {
	const { pack } = stockNamed('combi-tap-coil');
	const tooHot = { ...pack, model: { ...pack.model, settle: () => ({ flueTempC: 900 }) } };
	/** As if these had been typed. */
	function given(typed: ReadonlyMap<unknown, readonly unknown[]>): Given {
		const all = <T>(of: option.Option<T>) => (typed.get(of) ?? []) as readonly T[];
		return { all, may: (of) => all(of)[0], must: (of) => all(of)[0]! };
	}
	const refused = (fault: string, typed: ReadonlyMap<unknown, readonly unknown[]>) => () =>
		settledOf(tooHot, sampleMachine(pack, 1, { fault, severity: 0.8 }), 'tap', given(typed));

	it.each([
		[
			'--set',
			'fins-sooted',
			new Map<unknown, readonly unknown[]>([[option.assignment, [{ key: 'gas.meterMbar', value: '20' }]]]),
			'gas.meterMbar=20'
		],
		['--severity', 'fins-sooted', new Map([[option.severity, [0.8]]]), 'fins-sooted at 0.80'],
		['--fault', 'fins-sooted', new Map(), 'fins-sooted at 0.80'],
		['--seed', 'none', new Map([[option.seed, [1]]]), '1']
	])('is laid to %s where that was given', (argument, fault, typed, came) => {
		expect(refused(fault, typed)).toThrow(new RegExp(`^${argument}: expected .*900 under "tap".*came "${came}"$`));
	});
});
