/** Water that grows as it warms, and the vessel that takes it. */
import { densityKgPerM3 } from '#shared/physics/water.ts';
import { kelvinOf } from '#shared/quantity/units.ts';
import { defineSum, step } from './sum.ts';

const expansionVolume = defineSum({
	id: 'expansion-volume',
	drill: 'water-sums',
	asks: 'A sealed heating system is filled cold and fired up. How much more room does its water take?',
	asked: 'figure',
	units: ['l', 'ml'],
	pace: { quickSeconds: 75, slowSeconds: 300 },
	given: {
		litres: { name: 'Water in the system', unit: 'l', step: 5, exact: true },
		cold: { name: 'Filled at', unit: 'degC', step: 1, exact: true },
		hot: { name: 'Fired up to', unit: 'degC', step: 1, exact: true },
		before: { name: 'Water weighs, cold', unit: 'kg/m3', step: 0.1 },
		after: { name: 'Water weighs, hot', unit: 'kg/m3', step: 0.1 }
	},
	draw(chance) {
		const [cold, hot] = [chance.whole(8, 16), chance.whole(60, 82)];
		return { litres: chance.between(60, 250), cold, hot, before: densityKgPerM3(cold), after: densityKgPerM3(hot) };
	},
	solve: ({ litres, before, after }) => litres * (before / after - 1),
	worked: ({ litres, before, after }, answer) => [
		`The weight stays, so a litre becomes ${before} / ${after} = ${(before / after).toFixed(7)} l.`,
		`${litres} l x (${(before / after).toFixed(7)} - 1) = ${answer}`
	],
	misconceptions: [
		{
			says: 'That is all the water when hot: what it has grown by is asked.',
			gives: ({ litres, before, after }) => (litres * before) / after
		},
		{
			says: 'It was warmed like a gas, with the kelvin: water grows by a few per cent only.',
			gives: ({ litres, cold, hot }) => litres * (kelvinOf(hot) / kelvinOf(cold) - 1)
		},
		{
			says: 'That is the growth in per cent; it is still to be taken of the water in the system.',
			gives: ({ before, after }) => 100 * (before / after - 1)
		}
	]
});

const atmosphereBar = 1.013;

const vesselSize = defineSum({
	id: 'vessel-size',
	drill: 'water-sums',
	asks: 'What is the least size of expansion vessel for this system? Vessel = expansion / (1 - p1 / p2), with p1 when cold and p2 when hot.',
	asked: 'figure',
	units: ['l'],
	pace: { quickSeconds: 90, slowSeconds: 330 },
	given: {
		litres: { name: 'Water in the system', unit: 'l', step: 5, exact: true },
		share: { name: 'It grows by', unit: '%', step: 0.01 },
		cold: { name: 'Cold, on the gauge', unit: 'bar', step: 0.1, exact: true },
		hot: { name: 'Hot at most, on the gauge', unit: 'bar', step: 0.1, exact: true },
		air: { name: 'The air outside', unit: 'bar', step: 0.001, exact: true }
	},
	draw: (chance) => ({
		litres: chance.between(70, 250),
		share: 100 * (densityKgPerM3(10) / densityKgPerM3(chance.between(70, 85)) - 1),
		cold: chance.between(0.7, 1.5),
		hot: chance.between(2.3, 2.8),
		air: atmosphereBar
	}),
	solve: ({ litres, share, cold, hot, air }) => (litres * share) / 100 / (1 - (cold + air) / (hot + air)),
	worked({ litres, share, cold, hot, air }, answer) {
		const ratio = (cold + air) / (hot + air);
		return [
			`Expansion: ${litres} l x ${share} / 100 = ${step((litres * share) / 100)} l`,
			`Above nothing, not above the air: ${step(cold + air)} and ${step(hot + air)} bar`,
			`1 - ${step(cold + air)} / ${step(hot + air)} = ${step(1 - ratio)}`,
			`${step((litres * share) / 100)} / ${step(1 - ratio)} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The gauge pressures were taken as absolute: the air outside is to be added to both.',
			gives: ({ litres, share, cold, hot }) => (litres * share) / 100 / (1 - cold / hot)
		},
		{
			says: 'That is the expansion alone: a vessel can only be filled in part, since its air is squeezed and not driven out.',
			gives: ({ litres, share }) => (litres * share) / 100
		},
		{
			says: 'It was divided by p1 / p2: what counts is 1 less that.',
			gives: ({ litres, share, cold, hot, air }) => (litres * share) / 100 / ((cold + air) / (hot + air))
		}
	]
});

export const expansionSums = [expansionVolume, vesselSize];
