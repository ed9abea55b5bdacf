/** What an analyser shows, and what follows from it. Natural gas taken as methane. */
import { co2Percent, combustionOf, coRatio, o2Percent } from '#shared/physics/combustion.ts';
import { defineSum, step, type GivenFigure } from './sum.ts';

const methane = combustionOf('G20');
/** As they are used on paper: greatest CO2 [%], and dry products over air [-]. */
const greatestCo2 = Number(methane.co2MaxPercent.toFixed(1));
const dryOverAir = Number((methane.dryM3 / methane.airM3).toFixed(3));

/** Oxygen of fresh air, as an analyser shows it [%]: what there is where nothing has been burnt. */
const freshAirO2 = o2Percent(0, greatestCo2);

const greatest: GivenFigure = { name: 'Greatest CO2 of natural gas', unit: '%', step: 0.1, exact: true };
const dryShare: GivenFigure = { name: 'Dry products over air, natural gas', unit: '', step: 0.001, exact: true };

const coOverCo2 = defineSum({
	id: 'co-over-co2',
	drill: 'combustion-sums',
	asks: 'Your analyser shows CO and CO2 in the flue. What is the ratio of CO to CO2?',
	asked: 'figure',
	units: ['ratio'],
	pace: { quickSeconds: 45, slowSeconds: 180 },
	given: {
		co: { name: 'CO', unit: 'ppm', step: 1, exact: true },
		co2: { name: 'CO2', unit: '%', step: 0.1 }
	},
	draw: (chance) => ({ co: chance.between(40, 480), co2: chance.between(7, 10.2) }),
	solve: ({ co, co2 }) => coRatio(co, co2),
	worked: ({ co, co2 }, answer) => [
		`One per cent is 10000 ppm: ${co} / 10000 = ${step(co / 10000)} %`,
		`${step(co / 10000)} % / ${co2} % = ${answer}`
	],
	misconceptions: [
		{
			says: 'Parts per million were divided by per cent: one per cent is 10000 ppm.',
			gives: ({ co, co2 }) => co / co2
		},
		{
			says: 'The ppm were turned into thousandths: it takes 10000 ppm to a per cent.',
			gives: ({ co, co2 }) => co / 1000 / co2
		},
		{ says: 'The ratio is upside down.', gives: ({ co, co2 }) => co2 / (co / 10000) },
		{ says: 'That is the ratio in per cent; a plain ratio is asked.', gives: ({ co, co2 }) => 100 * coRatio(co, co2) }
	]
});

const coLimit = defineSum({
	id: 'co-limit',
	drill: 'combustion-sums',
	asks: 'At this CO2, how much CO would just come to the ratio given as the limit?',
	asked: 'figure',
	units: ['ppm', '%'],
	pace: { quickSeconds: 45, slowSeconds: 180 },
	given: {
		ratio: { name: 'Limit of the ratio', unit: '', step: 0.0001, exact: true },
		co2: { name: 'CO2', unit: '%', step: 0.1 }
	},
	draw: (chance) => ({ ratio: chance.pick([0.004, 0.008]), co2: chance.between(7, 10.2) }),
	solve: ({ ratio, co2 }) => ratio * co2 * 10000,
	worked: ({ ratio, co2 }, answer) => [
		`${ratio} x ${co2} % = ${step(ratio * co2)} % of CO`,
		`One per cent is 10000 ppm: ${step(ratio * co2)} x 10000 = ${answer}`
	],
	misconceptions: [
		{ says: 'That is in per cent: one per cent is 10000 ppm.', gives: ({ ratio, co2 }) => ratio * co2 },
		{ says: 'It was multiplied by 1000: it takes 10000 ppm to a per cent.', gives: ({ ratio, co2 }) => ratio * co2 * 1000 },
		{ says: 'The ratio was divided by the CO2 where it is to be multiplied.', gives: ({ ratio, co2 }) => (ratio / co2) * 10000 }
	]
});

const oxygenFromCo2 = defineSum({
	id: 'oxygen-from-co2',
	drill: 'combustion-sums',
	asks: 'You doubt an analyser: its O2 and CO2 must agree. What O2 belongs to this CO2? Fresh air has 20.9 %.',
	asked: 'figure',
	units: ['%'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: { co2: { name: 'CO2', unit: '%', step: 0.1 }, greatest },
	draw: (chance) => ({ co2: chance.between(5, 10), greatest: greatestCo2 }),
	solve: ({ co2, greatest }) => o2Percent(co2, greatest),
	worked: ({ co2, greatest }, answer) => [
		`${co2} / ${greatest} = ${step(co2 / greatest)} of the greatest CO2`,
		`What is left of the air: 1 - ${step(co2 / greatest)} = ${step(1 - co2 / greatest)}`,
		`20.9 % x ${step(1 - co2 / greatest)} = ${answer}`
	],
	misconceptions: [
		{
			says: 'CO2 was taken off the 20.9 %: burning makes less CO2 than it takes oxygen, by volume of dry flue gas.',
			gives: ({ co2 }) => freshAirO2 - co2
		},
		{ says: 'That is the oxygen used up; what is left is asked.', gives: ({ co2, greatest }) => (freshAirO2 * co2) / greatest },
		{ says: 'That is how far the CO2 is from its greatest, not oxygen.', gives: ({ co2, greatest }) => greatest - co2 }
	]
});

const excessAirFromO2 = defineSum({
	id: 'excess-air-from-o2',
	drill: 'combustion-sums',
	asks: 'How much excess air does this O2 mean? Excess = O2 / (20.9 - O2), times dry products over air.',
	asked: 'figure',
	units: ['%'],
	named: [freshAirO2],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: { o2: { name: 'O2', unit: '%', step: 0.1 }, dry: dryShare },
	draw: (chance) => ({ o2: o2Percent(co2Percent(chance.between(1.15, 1.9), methane), methane.co2MaxPercent), dry: dryOverAir }),
	solve: ({ o2, dry }) => (100 * dry * o2) / (freshAirO2 - o2),
	worked: ({ o2, dry }, answer) => [
		`20.9 - ${o2} = ${step(freshAirO2 - o2)}`,
		`${o2} / ${step(freshAirO2 - o2)} = ${step(o2 / (freshAirO2 - o2))}`,
		`${step(o2 / (freshAirO2 - o2))} x ${dry} x 100 = ${answer}`
	],
	misconceptions: [
		{
			says: 'O2 was divided by the 20.9 % of fresh air: it is to be divided by what was used of them.',
			gives: ({ o2, dry }) => (100 * dry * o2) / freshAirO2
		},
		{
			says: 'That is all the air; the excess is what lies above the 100 % that burning takes.',
			gives: ({ o2, dry }) => 100 + (100 * dry * o2) / (freshAirO2 - o2)
		},
		{
			says: 'Dry products were taken to be as much as the air: they are a tenth less.',
			gives: ({ o2 }) => (100 * o2) / (freshAirO2 - o2)
		}
	]
});

const lambdaOfCo2 = defineSum({
	id: 'lambda-from-co2',
	drill: 'combustion-sums',
	asks: 'What is the air ratio (lambda, air over the air that burning takes) at this CO2? Lambda = 1 + dry products over air x (greatest / CO2 - 1).',
	asked: 'one',
	units: ['ratio'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: { co2: { name: 'CO2', unit: '%', step: 0.1 }, greatest, dry: dryShare },
	draw: (chance) => ({ co2: co2Percent(chance.between(1.2, 2), methane), greatest: greatestCo2, dry: dryOverAir }),
	solve: ({ co2, greatest, dry }) => 1 + dry * (greatest / co2 - 1),
	worked: ({ co2, greatest, dry }, answer) => [
		`${greatest} / ${co2} - 1 = ${step(greatest / co2 - 1)}`,
		`${step(greatest / co2 - 1)} x ${dry} = ${step(dry * (greatest / co2 - 1))}`,
		`1 + ${step(dry * (greatest / co2 - 1))} = ${answer}`
	],
	misconceptions: [
		{
			says: 'That is the excess alone: the 1 of what burning takes is missing.',
			gives: ({ co2, greatest, dry }) => dry * (greatest / co2 - 1)
		},
		{ says: 'The ratio is upside down: more air thins the CO2.', gives: ({ co2, greatest }) => co2 / greatest },
		{
			says: 'The CO2 was put into the place of O2.',
			gives: ({ co2 }) => freshAirO2 / (freshAirO2 - co2)
		}
	]
});

export const burningSums = [coOverCo2, coLimit, oxygenFromCo2, excessAirFromO2, lambdaOfCo2];
