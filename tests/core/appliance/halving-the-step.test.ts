import { describe, expect, test } from 'vitest';
import { stock } from '../../sampled.ts';

/** Nothing that is read may hang on how finely time is cut: 0.2 K, 0.1 l/min, 1 % of power (of the full 24 kW), by unit. */
const may: Readonly<Record<string, number>> = { degC: 0.2, 'l/min': 0.1, kW: 0.24 };

describe.each(stock)('$id', ({ pack: { model, family }, faults, machinesWith }) => {
	const demands = family.demands.map(({ id }) => id).filter((demand) => demand !== 'none');
	// What is worked out over the window from states and flows; flue gas is hotter than water by the ratio of their heats.
	const held = model.quantities.filter(({ key, unit }) => unit in may && key !== 'flueTempC');

	test.each(faults)('halving the step moves no settled reading of %s', (fault) => {
		for (const { faulty } of machinesWith(fault, 6)) {
			for (const demand of demands) {
				const coarse = model.settle(faulty, demand, 0.5);
				const fine = model.settle(faulty, demand, 0.25);
				for (const { key, unit } of held) {
					if (coarse[key] !== fine[key]) expect(Math.abs(coarse[key] - fine[key]), `${demand} ${key}`).toBeLessThan(may[unit]);
				}
				expect(fine.lockout, demand).toBe(coarse.lockout);
			}
		}
	});
});
