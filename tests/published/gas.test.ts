import { describe, expect, it } from 'vitest';
import {
	airKgPerM3,
	boreMm2,
	gases,
	injectorFlowM3h,
	meteredHeatKwh,
	meterFactor,
	pressureLossMbar,
	wobbe,
	type GasId
} from '#shared/physics/gas.ts';
import { m3OfFt3 } from '#shared/quantity/units.ts';
import { within, withinShare } from './within.ts';

const ids = Object.keys(gases) as GasId[];

describe('EN 437 reference gases (from memory)', () => {
	it.each(ids)('%s agrees with itself: W = H / sqrt(d)', (id) => {
		// 0.1 %: the last figures of the table.
		const gas = gases[id];
		withinShare(wobbe(gas.netMjPerM3, gas.relativeDensity), gas.netWobbe, 0.001, 'net');
		withinShare(wobbe(gas.grossMjPerM3, gas.relativeDensity), gas.grossWobbe, 0.001, 'gross');
	});

	it('agrees with EN 437 for methane with 7.5 % nitrogen', () => {
		// G23, read in EN 437:2003+A1:2009, table 2: Hi 31.46, Hs 34.95, d 0.586, Wi 41.11, Ws 45.66.
		// Divided by its 92.5 % of methane it is G20, and times 86 % G25. 0.1 %: its last figures.
		withinShare(gases.G20.grossMjPerM3, 34.95 / 0.925, 0.001, 'G20 gross');
		withinShare(gases.G20.netMjPerM3, 31.46 / 0.925, 0.001, 'G20 net');
		withinShare(gases.G25.grossMjPerM3, (34.95 / 0.925) * 0.86, 0.001, 'G25 gross');
		withinShare(gases.G25.netMjPerM3, (31.46 / 0.925) * 0.86, 0.001, 'G25 net');
		withinShare(wobbe(31.46, 0.586), 41.11, 0.001, 'G23 net Wobbe');
		withinShare(wobbe(34.95, 0.586), 45.66, 0.001, 'G23 gross Wobbe');
	});

	it('has the density of dry air that the gas laws give', () => {
		// Computed: 28.964 g/mol (from memory) at 101.325 kPa and 288.15 K with R = 8.314 J/(mol K); 0.1 %: real air is that much denser at most.
		withinShare(airKgPerM3, (28.964 * 101.325) / (8.314 * 288.15), 0.001, 'air');
	});

	it('has a ratio of gross to net of 1.1105 for methane and 1.087 for propane', () => {
		// Computed from the table; industry divides by 1.11. 0.1 %.
		withinShare(gases.G20.grossMjPerM3 / gases.G20.netMjPerM3, 1.1105, 0.001, 'methane');
		withinShare(gases.G31.grossMjPerM3 / gases.G31.netMjPerM3, 1.087, 0.001, 'propane');
	});

	it('has the test pressures of the standard', () => {
		// From memory of EN 437, table of test pressures; G30 at 28-30 mbar countries.
		expect(ids.map((id) => [gases[id].testMbar.nominal, gases[id].testMbar.from, gases[id].testMbar.to])).toEqual([
			[20, 17, 25],
			[25, 20, 30],
			[30, 25, 35],
			[37, 25, 45]
		]);
	});
});

describe('injector', () => {
	it('passes what the orifice equation gives', () => {
		// Computed, with rho = 0.6802 kg/m3: 1.00 mm, Cd 0.9, 20 mbar, G20: 0.1951 m3/h and 1.844 kW net. 0.5 %.
		const flow = injectorFlowM3h(boreMm2(1), 20, gases.G20.relativeDensity, 0.9);
		withinShare(flow, 0.1951, 0.005, 'm3/h');
		withinShare((flow * gases.G20.netMjPerM3) / 3.6, 1.844, 0.005, 'kW');
		// Bernoulli by hand: 2 x 2000 Pa / 0.6802 kg/m3 is (76.7 m/s)^2, through 0.7854 mm2.
		withinShare(flow, 0.9 * 0.7854e-6 * 76.68 * 3600, 0.001, 'by Bernoulli');
	});

	it('answers to pressure by the square root', () => {
		// Computed against 20 mbar; 0.1 %: the last figures.
		const rate = (mbar: number) => injectorFlowM3h(1, mbar, 0.555, 0.9) / injectorFlowM3h(1, 20, 0.555, 0.9);
		withinShare(rate(17), 0.922, 0.001, '17 mbar');
		withinShare(rate(18), 0.949, 0.001, '18 mbar');
		withinShare(rate(25), 1.118, 0.001, '25 mbar');
	});

	it('passes heat by the Wobbe number: G25 gives 0.819 of G20', () => {
		// 0.819 is the ratio of the Wobbe numbers of EN 437, 37.38 / 45.67; 0.2 %.
		const heat = (id: GasId) => injectorFlowM3h(1, 20, gases[id].relativeDensity, 0.9) * gases[id].netMjPerM3;
		withinShare(heat('G25') / heat('G20'), 0.819, 0.002, 'heat');
	});
});

describe('metered heat', () => {
	it('gives the examples of suppliers and of the regulations', () => {
		// The factor: Gas (Calculation of Thermal Energy) Regulations 1996 (seen in suppliers' explanations).
		expect(meterFactor).toBe(1.02264);
		// Supplier's published example: 2 m3 at 39.3 MJ/m3 is 22.33 kWh.
		within(meteredHeatKwh(2, 39.3), 22.33, 0.02, '2 m3');
		// Published example for an imperial meter: 100 ft3 taken as 2.83 m3, at 39.47333 MJ/m3, is 31.73 kWh.
		within(meteredHeatKwh(2.83, 39.47333), 31.73, 0.01, '100 ft3');
		// By the exact foot the same unit is 0.06 % more.
		withinShare(meteredHeatKwh(m3OfFt3(100), 39.47333), 31.73, 0.001, '100 ft3 exactly');
		// Arithmetic: 1 m3 at 39.5 MJ/m3 is 11.22 kWh.
		within(meteredHeatKwh(1, 39.5), 11.22, 0.005, '1 m3');
	});

	it('gives the gas rate example', () => {
		// Computed: 0.0928 m3 in 120 s at 39.5 MJ/m3 is 31.24 kW gross with the factor. 0.1 %.
		withinShare(meteredHeatKwh(0.0928, 39.5) * (3600 / 120), 31.24, 0.001, 'kW');
	});
});

describe('loss in gas pipework', () => {
	it('leaves about 20 mbar at the appliance where 1 mbar is lost at full load', () => {
		// BS 6891: 21 mbar at the meter and not more than 1 mbar lost at full load (from memory; the table titles read). Half the load loses a quarter.
		expect(21 - pressureLossMbar(3, 1, 3)).toBe(20);
		expect(21 - pressureLossMbar(1.5, 1, 3)).toBe(20.75);
	});
});
