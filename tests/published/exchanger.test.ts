import { describe, it } from 'vitest';
import {
	counterflowEffectiveness,
	counterflowHeatKw,
	logMeanDifferenceK,
	plateConductance,
	type Plate
} from '#shared/physics/exchanger.ts';
import { within, withinShare } from './within.ts';

describe('counterflow effectiveness', () => {
	it('has the values of the published relation', () => {
		// Computed from the relation as textbooks carry it (Incropera ch. 11, Cengel ch. 11: from memory); 0.0005: five of the last figure.
		const ratios = [0, 0.25, 0.5, 0.75, 1];
		const table: [number, number[]][] = [
			[0.5, [0.3935, 0.3776, 0.3623, 0.3475, 0.3333]],
			[1, [0.6321, 0.5983, 0.5647, 0.5319, 0.5]],
			[2, [0.8647, 0.8228, 0.7746, 0.7218, 0.6667]],
			[3, [0.9502, 0.9188, 0.8744, 0.8171, 0.75]],
			[5, [0.9933, 0.9823, 0.9572, 0.9088, 0.8333]]
		];
		for (const [ntu, row] of table) {
			row.forEach((e, i) => within(counterflowEffectiveness(ntu, ratios[i] as number), e, 0.0005, `N ${ntu}, c ${ratios[i]}`));
		}
	});

	it('has the values that a library of heat transfer publishes', () => {
		// Read in the documentation and tests of the open-source library ht; 1e-6: its last figure.
		within(counterflowEffectiveness(5, 0.7), 0.92067, 1e-6, 'N 5, c 0.7');
		within(counterflowEffectiveness(5, 0), 0.993262, 1e-6, 'N 5, c 0');
	});
});

describe('worked examples', () => {
	it('oil cooler', () => {
		// Incropera et al., Fundamentals of Heat and Mass Transfer, ch. 11 (from memory): oil 0.1 kg/s, 2131 J/(kg K), 100 to 60 degC;
		// water 0.2 kg/s, 4178 J/(kg K), in at 30: 8524 W, water out 40.2 degC, log-mean 43.2 K. 0.5 %: rounding in the book.
		const oil = 0.1 * 2.131;
		const water = 0.2 * 4.178;
		const lmtd = logMeanDifferenceK(100 - 40.2, 60 - 30);
		within(lmtd, 43.2004, 1e-4, 'log-mean difference, computed');
		const heat = counterflowHeatKw(oil, 100, water, 30, 8.524 / lmtd);
		withinShare(heat, 8.524, 0.005, 'heat');
		withinShare(30 + heat / water, 40.2, 0.005, 'water out');
		withinShare(100 - heat / oil, 60, 0.005, 'oil out');
	});

	it('water to water', () => {
		// Cengel and Ghajar, Heat and Mass Transfer, 5th ed., ch. 11: the problem's figures read, its answers computed by two methods.
		// Hot in 95, cold in 20 degC, hot flow 1.5 of the cold, UA 1.4 kW/K: cold flow 0.4162 kg/s, 62.62 kW, out at 71 and 56 degC. 0.1 %.
		const cold = 0.4162 * 4.18;
		const hot = 1.5 * cold;
		const heat = counterflowHeatKw(hot, 95, cold, 20, 1.4);
		withinShare(heat, 62.62, 0.001, 'heat');
		withinShare(20 + heat / cold, 56, 0.001, 'cold out');
		withinShare(95 - heat / hot, 71, 0.001, 'hot out');
	});

	it('water heated by brine', () => {
		// Cengel, ch. 11 (figures from memory, answers computed by two methods): water 1.2 kg/s, 4.18, 20 to 80 degC; brine 2 kg/s, 4.31,
		// in at 160; U 0.640 kW/(m2 K): 301.0 kW, brine out 125.1 degC, log-mean 91.97 K, 5.11 m2. 0.5 %.
		const water = 1.2 * 4.18;
		const brine = 2 * 4.31;
		withinShare(counterflowHeatKw(brine, 160, water, 20, 0.64 * 5.11), 301.0, 0.005, 'heat');
		withinShare(logMeanDifferenceK(160 - 80, 125.1 - 20), 91.97, 0.005, 'log-mean difference');
	});
});

const plate: Plate = {
	cleanKwPerK: 3,
	hotShare: 0.5,
	coldShare: 0.5,
	hotFlowRatio: 1,
	coldFlowRatio: 1,
	foulingM2KPerW: 0,
	areaM2: 1,
	openShare: 1
};

describe('plate exchanger', () => {
	it('loses to deposits what the textbook sum gives', () => {
		// Computed, 1 / (1/U + R). The resistances: 1.76e-4 m2 K/W is the tabled 0.001 h ft2 degF/Btu for hard water (TEMA, from memory);
		// 2.0e-4 is 0.5 mm of scale at 2.5 W/(m K) (Bott, Fouling of Heat Exchangers, from memory). 0.1 %.
		const u = (cleanKwPerK: number, foulingM2KPerW: number) => 1000 * plateConductance({ ...plate, cleanKwPerK, foulingM2KPerW });
		withinShare(u(3, 1.76e-4), 1963, 0.001, '3000 W/(m2 K), hard water');
		withinShare(u(5, 1.76e-4), 2660, 0.001, '5000 W/(m2 K), hard water');
		withinShare(u(3, 2.0e-4), 1875, 0.001, '3000 W/(m2 K), half a millimetre');
		withinShare(u(5, 2.0e-4), 2500, 0.001, '5000 W/(m2 K), half a millimetre');
	});

	it('answers to flow with the exponent of turbulent films', () => {
		// Exponent 0.8: the plate exchanger of the Buildings library of Modelica models (read), and Dittus-Boelter (from memory).
		// The factors 1.7411 = 2^0.8 and 0.5743 = 2^-0.8 are arithmetic.
		const ua = (hotFlowRatio: number, coldFlowRatio: number) => plateConductance({ ...plate, hotFlowRatio, coldFlowRatio });
		withinShare(ua(2, 2) / ua(1, 1), 1.7411, 1e-4, 'both doubled');
		withinShare(ua(0.5, 0.5) / ua(1, 1), 0.5743, 1e-4, 'both halved');
		withinShare(ua(2, 1) / ua(1, 1), 2 / (1 + 0.5743), 1e-4, 'one doubled');
	});
});
