/** Water through fittings, and the weight of water. */
import { flowLpm, lossBar, parallelResistance, resistanceOfKv, seriesResistance } from '#shared/physics/hydraulics.ts';
import { densityKgPerM3 } from '#shared/physics/water.ts';
import { barOfMbar, m3hOfLpm, mbarOfBar } from '#shared/quantity/units.ts';
import { defineSum, step } from './sum.ts';

/** Resistance of what loses so much at such a flow [bar/(l/min)^2]. */
const resistance = (bar: number, lpm: number): number => bar / (lpm * lpm);

const dropWithFlow = defineSum({
	id: 'drop-with-flow',
	drill: 'water-sums',
	asks: 'You know what a clean filter loses at one flow. What should it lose at the flow that you measure now?',
	asked: 'figure',
	units: ['mbar', 'bar'],
	pace: { quickSeconds: 45, slowSeconds: 180 },
	given: {
		loss: { name: 'Loss when clean', unit: 'mbar', step: 1 },
		at: { name: 'At a flow of', unit: 'l/min', step: 0.1, exact: true },
		flow: { name: 'Flow now', unit: 'l/min', step: 0.1 }
	},
	draw(chance) {
		const at = chance.between(7, 12);
		return { loss: chance.between(60, 250), at, flow: at * chance.pick([chance.between(0.5, 0.8), chance.between(1.25, 1.9)]) };
	},
	solve: ({ loss, at, flow }) => mbarOfBar(lossBar(flow, resistance(barOfMbar(loss), at))),
	worked: ({ loss, at, flow }, answer) => [
		'Loss goes with the square of the flow.',
		`${flow} / ${at} = ${step(flow / at)}, squared ${step((flow / at) ** 2)}`,
		`${loss} mbar x ${step((flow / at) ** 2)} = ${answer}`
	],
	misconceptions: [
		{
			says: 'The square was forgotten: loss goes with the square of the flow.',
			gives: ({ loss, at, flow }) => (loss * flow) / at
		},
		{
			says: 'The root was taken where it is to be squared: that is the way from loss to flow.',
			gives: ({ loss, at, flow }) => loss * Math.sqrt(flow / at)
		},
		{ says: 'The ratio is upside down.', gives: ({ loss, at, flow }) => loss * (at / flow) ** 2 }
	]
});

const valveKv = defineSum({
	id: 'valve-kv',
	drill: 'water-sums',
	asks: 'A zone valve is marked with its Kv: the cubic metres an hour that it passes at 1 bar. What does it pass at this difference?',
	asked: 'figure',
	units: ['l/min', 'm3/h'],
	pace: { quickSeconds: 75, slowSeconds: 300 },
	given: {
		kv: { name: 'Kv', unit: 'm3/h', step: 0.1, exact: true },
		difference: { name: 'Difference across it', unit: 'bar', step: 0.01 }
	},
	draw: (chance) => ({ kv: chance.between(1, 6), difference: chance.between(0.08, 0.45) }),
	solve: ({ kv, difference }) => flowLpm(difference, resistanceOfKv(kv)),
	worked({ kv, difference }, answer) {
		const m3h = m3hOfLpm(flowLpm(difference, resistanceOfKv(kv)));
		return [
			`Flow goes with the square root of the difference: root ${difference} = ${step(Math.sqrt(difference))}`,
			`${kv} m3/h x ${step(Math.sqrt(difference))} = ${step(m3h)} m3/h`,
			`${step(m3h)} x 1000 l / 60 min = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The root was forgotten: flow goes with the square root of the difference.',
			gives: ({ kv, difference }) => (kv * difference * 1000) / 60
		},
		{
			says: 'That is in cubic metres an hour; litres a minute are asked first.',
			gives: ({ kv, difference }) => kv * Math.sqrt(difference)
		},
		{
			says: 'That is in litres a second: an hour was divided into its 3600 s, not its 60 min.',
			gives: ({ kv, difference }) => (kv * Math.sqrt(difference)) / 3.6
		},
		{
			says: 'It was divided by the root: less difference brings less flow.',
			gives: ({ kv, difference }) => (kv * 1000) / 60 / Math.sqrt(difference)
		}
	]
});

const twoInSeries = defineSum({
	id: 'two-in-series',
	drill: 'water-sums',
	asks: 'Water passes a check valve and then a strainer. What flow will this pressure drive through both?',
	asked: 'figure',
	units: ['l/min'],
	pace: { quickSeconds: 90, slowSeconds: 330 },
	given: {
		at: { name: 'Both measured at', unit: 'l/min', step: 0.1, exact: true },
		valve: { name: 'Check valve loses', unit: 'mbar', step: 1 },
		strainer: { name: 'Strainer loses', unit: 'mbar', step: 1 },
		pressure: { name: 'Pressure over both', unit: 'mbar', step: 1 }
	},
	draw(chance) {
		const [at, valve, strainer] = [chance.between(8, 12), chance.between(80, 220), chance.between(80, 220)];
		return { at, valve, strainer, pressure: (valve + strainer) * chance.pick([chance.between(0.3, 0.6), chance.between(1.6, 2.6)]) };
	},
	solve: ({ at, valve, strainer, pressure }) =>
		flowLpm(barOfMbar(pressure), seriesResistance(resistance(barOfMbar(valve), at), resistance(barOfMbar(strainer), at))),
	worked({ at, valve, strainer, pressure }, answer) {
		const ratio = pressure / (valve + strainer);
		return [
			`One flow passes both, so the losses add: ${valve} + ${strainer} = ${valve + strainer} mbar at ${at} l/min`,
			`${pressure} / ${valve + strainer} = ${step(ratio)}, its root ${step(Math.sqrt(ratio))}`,
			`${at} l/min x ${step(Math.sqrt(ratio))} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The root was forgotten: flow goes with the square root of pressure.',
			gives: ({ at, valve, strainer, pressure }) => (at * pressure) / (valve + strainer)
		},
		{
			says: 'Only the greater loss was counted: in series both take their share.',
			gives: ({ at, valve, strainer, pressure }) => at * Math.sqrt(pressure / Math.max(valve, strainer))
		},
		{
			says: 'They were taken as side by side: one after the other, both lose pressure to the same flow.',
			gives: ({ at, valve, strainer, pressure }) =>
				flowLpm(barOfMbar(pressure), parallelResistance(resistance(barOfMbar(valve), at), resistance(barOfMbar(strainer), at)))
		}
	]
});

const twoBranches = defineSum({
	id: 'two-branches',
	drill: 'water-sums',
	asks: 'Two heating circuits lie side by side on one pump. What pressure drives this flow through the two together?',
	asked: 'one',
	units: ['mbar'],
	pace: { quickSeconds: 90, slowSeconds: 330 },
	given: {
		pressure: { name: 'Each measured at', unit: 'mbar', step: 1 },
		one: { name: 'First passes at it', unit: 'l/min', step: 0.1 },
		other: { name: 'Second passes at it', unit: 'l/min', step: 0.1 },
		flow: { name: 'Flow of both together', unit: 'l/min', step: 0.1 }
	},
	draw(chance) {
		const [one, other] = [chance.between(6, 12), chance.between(4, 9)];
		return {
			pressure: chance.between(100, 250),
			one,
			other,
			flow: (one + other) * chance.pick([chance.between(0.6, 0.8), chance.between(1.2, 1.4)])
		};
	},
	solve: ({ pressure, one, other, flow }) =>
		mbarOfBar(lossBar(flow, parallelResistance(resistance(barOfMbar(pressure), one), resistance(barOfMbar(pressure), other)))),
	worked({ pressure, one, other, flow }, answer) {
		const ratio = flow / (one + other);
		return [
			`One pressure lies over both, so the flows add: ${one} + ${other} = ${step(one + other)} l/min at ${pressure} mbar`,
			`${flow} / ${step(one + other)} = ${step(ratio)}, squared ${step(ratio ** 2)}`,
			`${pressure} mbar x ${step(ratio ** 2)} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The square was forgotten: pressure goes with the square of the flow.',
			gives: ({ pressure, one, other, flow }) => (pressure * flow) / (one + other)
		},
		{
			says: 'They were taken in series, as though all the flow had to pass one after the other.',
			gives: ({ pressure, one, other, flow }) =>
				mbarOfBar(lossBar(flow, seriesResistance(resistance(barOfMbar(pressure), one), resistance(barOfMbar(pressure), other))))
		},
		{
			says: 'All the flow was sent through the first circuit: the second takes its share.',
			gives: ({ pressure, one, flow }) => mbarOfBar(lossBar(flow, resistance(barOfMbar(pressure), one)))
		}
	]
});

/** Pressure of a metre of cold water [bar/m], to three figures as it is used on paper. */
const barPerMetre = Number(((densityKgPerM3(10) * 9.80665) / 1e5).toPrecision(3));

const staticHead = defineSum({
	id: 'static-head',
	drill: 'water-sums',
	asks: 'A shower on a gravity supply is weak. What pressure does the cistern give at the shower head, nothing running?',
	asked: 'figure',
	units: ['bar', 'mbar'],
	pace: { quickSeconds: 45, slowSeconds: 180 },
	given: {
		cistern: { name: 'Water in the cistern, above the floor', unit: 'm', step: 0.01 },
		head: { name: 'Shower head, above the floor', unit: 'm', step: 0.01 },
		metre: { name: 'A metre of water', unit: 'bar', step: 0.0001, exact: true }
	},
	draw(chance) {
		const head = chance.between(1.9, 2.2);
		return { head, cistern: head + chance.between(0.9, 4.5), metre: barPerMetre };
	},
	solve: ({ cistern, head, metre }) => (cistern - head) * metre,
	worked: ({ cistern, head, metre }, answer) => [
		`What counts is how far the water stands above the outlet: ${cistern} - ${head} = ${step(cistern - head)} m`,
		`${step(cistern - head)} m x ${metre} bar/m = ${answer}`
	],
	misconceptions: [
		{
			says: 'The height was taken from the floor: only what lies above the outlet presses on it.',
			gives: ({ cistern, metre }) => cistern * metre
		},
		{ says: 'A bar was taken for each metre: it takes about ten metres.', gives: ({ cistern, head }) => cistern - head },
		{
			says: 'The pressure of the air was added: a gauge does not show it, and it presses on the cistern as on the outlet.',
			gives: ({ cistern, head, metre }) => (cistern - head) * metre + 1.013
		}
	]
});

export const pressureAndFlowSums = [dropWithFlow, valveKv, twoInSeries, twoBranches, staticHead];
