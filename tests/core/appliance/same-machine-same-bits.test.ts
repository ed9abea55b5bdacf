import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { stock } from '../../sampled.ts';

describe.each(stock)('$id', ({ pack, run }) => {
	const fault = fc.constantFrom(...pack.faults.map(({ id }) => id));

	test('the same machine gives the same bits', () => {
		fc.assert(
			fc.property(fc.nat(100_000), fault, (seed, hidden) => {
				const once = run(sampleMachine(pack, seed, { fault: hidden }).faulty, 'tap');
				const again = run(sampleMachine(pack, seed, { fault: hidden }).faulty, 'tap');
				expect(again).toEqual(once);
			}),
			{ numRuns: 60, seed: 21 }
		);
	});

	test('every quantity that is defined is given, and is a number, on every machine', () => {
		const defined = pack.model.quantities.map(({ key }) => key).sort();
		fc.assert(
			fc.property(fc.nat(100_000), fault, (seed, hidden) => {
				const machine = sampleMachine(pack, seed, { fault: hidden }).faulty;
				for (const { id: demand } of pack.family.demands) {
					const settled = run(machine, demand);
					expect(Object.keys(settled).sort()).toEqual(defined);
					for (const [key, value] of Object.entries(settled)) if (Number.isNaN(value)) throw new Error(`${demand} ${key}`);
				}
			}),
			{ numRuns: 80, seed: 22 }
		);
	});
});
