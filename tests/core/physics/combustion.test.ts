import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
	co2Percent,
	combustionEfficiencyNet,
	combustionOf,
	condensedPerFuel,
	coRatio,
	dewPointC,
	lambdaFromCo2,
	o2Percent
} from '#shared/physics/combustion.ts';

const gas = fc.constantFrom('G20', 'G25', 'G30', 'G31').map((id) => combustionOf(id as 'G20'));
const lambda = fc.double({ min: 1, max: 3, noNaN: true });
const airVapour = fc.double({ min: 0, max: 0.03, noNaN: true });

describe('products', () => {
	it('give back the excess air, and hold less carbon dioxide and more oxygen the more air there is', () => {
		fc.assert(
			fc.property(gas, lambda, fc.double({ min: 0.01, max: 1, noNaN: true }), (fuel, l, more) => {
				expect(lambdaFromCo2(co2Percent(l, fuel), fuel)).toBeCloseTo(l, 10);
				expect(co2Percent(l + more, fuel)).toBeLessThan(co2Percent(l, fuel));
				const oxygen = (at: number) => o2Percent(co2Percent(at, fuel), fuel.co2MaxPercent);
				expect(oxygen(l + more)).toBeGreaterThan(oxygen(l));
				expect(dewPointC(l + more, fuel)).toBeLessThan(dewPointC(l, fuel));
			})
		);
	});

	it('balance in oxygen: what the air brought is in carbon dioxide, water and what is left', () => {
		fc.assert(
			fc.property(gas, lambda, (fuel, l) => {
				const dry = fuel.dryM3 + (l - 1) * fuel.airM3;
				const brought = 0.2095 * l * fuel.airM3;
				const left = brought - fuel.co2M3 - fuel.vapourM3 / 2;
				// An analyser's 20.9 % for fresh air stands for 20.95, and the fuel's own nitrogen shifts the straight line a little.
				expect(Math.abs(o2Percent(co2Percent(l, fuel), fuel.co2MaxPercent) - (100 * left) / dry)).toBeLessThan(0.05);
			})
		);
	});

	it('take air short of the stoichiometric as stoichiometric', () => {
		const methane = combustionOf('G20');
		expect(co2Percent(0.8, methane)).toBe(methane.co2MaxPercent);
		expect(dewPointC(0.8, methane)).toBe(dewPointC(1, methane));
	});

	it('tell no ratio from no gas', () => {
		expect(coRatio(0, 0)).toBe(0);
		expect(coRatio(50, 0)).toBe(Infinity);
	});
});

describe('condensation', () => {
	it('begins at the dew point', () => {
		fc.assert(
			fc.property(gas, lambda, airVapour, (fuel, l, vapour) => {
				const dew = dewPointC(l, fuel, vapour);
				const at = (flueTempC: number) => condensedPerFuel({ lambda: l, flueTempC, airTempC: 20, airVapour: vapour, gas: fuel });
				expect(at(dew + 0.001)).toBe(0);
				expect(at(dew - 0.1)).toBeGreaterThan(0);
			})
		);
	});

	it('never exceeds the vapour there is', () => {
		fc.assert(
			fc.property(gas, lambda, fc.double({ min: 0, max: 99, noNaN: true }), (fuel, l, flueTempC) => {
				expect(condensedPerFuel({ lambda: l, flueTempC, airTempC: 20, gas: fuel })).toBeLessThan(fuel.vapourM3);
			})
		);
	});
});

describe('efficiency on net calorific value', () => {
	it('falls without a jump as the flue warms, above, below and across the dew point', () => {
		fc.assert(
			fc.property(gas, lambda, airVapour, fc.double({ min: 20, max: 200, noNaN: true }), (fuel, l, vapour, flueTempC) => {
				const at = (tempC: number) => combustionEfficiencyNet({ lambda: l, flueTempC: tempC, airTempC: 15, airVapour: vapour, gas: fuel });
				const fall = at(flueTempC) - at(flueTempC + 0.01);
				expect(fall).toBeGreaterThan(0);
				expect(fall).toBeLessThan(0.0005);
			})
		);
	});

	it('is whole with nothing lost, and below the ratio of gross to net however cold the flue', () => {
		fc.assert(
			fc.property(gas, lambda, fc.double({ min: 15, max: 300, noNaN: true }), (fuel, l, flueTempC) => {
				const efficiency = combustionEfficiencyNet({ lambda: l, flueTempC, airTempC: 15, gas: fuel });
				expect(efficiency).toBeLessThan(fuel.grossMjPerM3 / fuel.netMjPerM3);
				expect(efficiency).toBeGreaterThan(0.5);
			})
		);
		const dryEnough = { lambda: 1.3, flueTempC: 80, airTempC: 80, gas: combustionOf('G20') };
		expect(combustionEfficiencyNet(dryEnough)).toBe(1);
	});

	it('falls with more air while nothing condenses', () => {
		fc.assert(
			fc.property(
				gas,
				lambda,
				fc.double({ min: 0.01, max: 1, noNaN: true }),
				fc.double({ min: 70, max: 250, noNaN: true }),
				(fuel, l, more, flueTempC) => {
					const at = (air: number) => combustionEfficiencyNet({ lambda: air, flueTempC, airTempC: 15, gas: fuel });
					expect(at(l + more)).toBeLessThan(at(l));
				}
			)
		);
	});
});
