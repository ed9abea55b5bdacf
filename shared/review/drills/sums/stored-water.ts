/** Hot water mixed, and cylinders warmed. */
import { kjPerLitreK, litreHeat } from './heat-of-a-litre.ts';
import { defineSum, step } from './sum.ts';

const mixedTemperature = defineSum({
	id: 'mixed-temperature',
	drill: 'heat-sums',
	asks: 'Hot and cold meet in a mixer. How warm is what leaves it?',
	asked: 'figure',
	units: ['degC'],
	atLeast: 0.5,
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		hotFlow: { name: 'Hot', unit: 'l/min', step: 0.1 },
		hot: { name: 'Hot at', unit: 'degC', step: 0.5 },
		coldFlow: { name: 'Cold', unit: 'l/min', step: 0.1 },
		cold: { name: 'Cold at', unit: 'degC', step: 0.5 }
	},
	draw: (chance) => ({
		hotFlow: chance.between(4, 9),
		hot: chance.between(50, 62),
		coldFlow: chance.between(2, 7),
		cold: chance.between(6, 16)
	}),
	solve: ({ hotFlow, hot, coldFlow, cold }) => (hotFlow * hot + coldFlow * cold) / (hotFlow + coldFlow),
	worked: ({ hotFlow, hot, coldFlow, cold }, answer) => [
		'Each water counts by how much there is of it.',
		`${hotFlow} x ${hot} + ${coldFlow} x ${cold} = ${step(hotFlow * hot + coldFlow * cold)}`,
		`${step(hotFlow * hot + coldFlow * cold)} / (${hotFlow} + ${coldFlow}) = ${answer}`
	],
	misconceptions: [
		{ says: 'That is midway between the two, as though there were as much of each.', gives: ({ hot, cold }) => (hot + cold) / 2 },
		{
			says: 'The flows were exchanged: the hot flow belongs to the hot temperature.',
			gives: ({ hotFlow, hot, coldFlow, cold }) => (coldFlow * hot + hotFlow * cold) / (hotFlow + coldFlow)
		},
		{
			says: 'The cold water was counted as though it were at 0 degC.',
			gives: ({ hotFlow, hot, coldFlow }) => (hotFlow * hot) / (hotFlow + coldFlow)
		}
	]
});

const hotForMixed = defineSum({
	id: 'hot-for-mixed',
	drill: 'heat-sums',
	asks: 'A thermostatic shower draws from a cylinder. How much of its flow is hot water from the cylinder?',
	asked: 'one',
	units: ['l/min'],
	pace: { quickSeconds: 75, slowSeconds: 270 },
	given: {
		flow: { name: 'Shower', unit: 'l/min', step: 0.1 },
		mixed: { name: 'Shower at', unit: 'degC', step: 0.5 },
		hot: { name: 'Cylinder at', unit: 'degC', step: 0.5 },
		cold: { name: 'Cold at', unit: 'degC', step: 0.5 }
	},
	draw: (chance) => ({
		flow: chance.between(7, 14),
		mixed: chance.between(37, 42),
		hot: chance.between(56, 65),
		cold: chance.between(6, 16)
	}),
	solve: ({ flow, mixed, hot, cold }) => (flow * (mixed - cold)) / (hot - cold),
	worked: ({ flow, mixed, hot, cold }, answer) => [
		`The mixed water is ${mixed - cold} K above the cold, the hot ${hot - cold} K.`,
		`${flow} x ${mixed - cold} / ${hot - cold} = ${answer}`
	],
	misconceptions: [
		{
			says: 'The cold was not taken off: what counts is how far each lies above the cold.',
			gives: ({ flow, mixed, hot }) => (flow * mixed) / hot
		},
		{ says: 'That is the cold part; the hot is asked.', gives: ({ flow, mixed, hot, cold }) => (flow * (hot - mixed)) / (hot - cold) },
		{ says: 'That is half and half, whatever the temperatures are.', gives: ({ flow }) => flow / 2 }
	]
});

const reheatTime = defineSum({
	id: 'reheat-time',
	drill: 'heat-sums',
	asks: 'How long does it take to bring this cylinder up, if all the heat goes into the water?',
	asked: 'figure',
	units: ['min', 'h'],
	pace: { quickSeconds: 75, slowSeconds: 300 },
	given: {
		litres: { name: 'Cylinder', unit: 'l', step: 5, exact: true },
		from: { name: 'From', unit: 'degC', step: 1, exact: true },
		to: { name: 'To', unit: 'degC', step: 1, exact: true },
		heat: { name: 'Heat into it', unit: 'kW', step: 0.1 },
		litre: litreHeat
	},
	draw: (chance) => ({
		litres: chance.between(100, 250),
		from: chance.between(10, 40),
		to: chance.between(60, 65),
		heat: chance.pick([3, 6, chance.between(8, 22)]),
		litre: kjPerLitreK
	}),
	solve: ({ litres, from, to, heat, litre }) => (litres * litre * (to - from)) / heat / 60,
	worked({ litres, from, to, heat, litre }, answer) {
		const kj = litres * litre * (to - from);
		return [
			`${litres} x ${litre} x (${to} - ${from}) = ${step(kj)} kJ`,
			`${step(kj)} kJ / ${heat} kW = ${step(kj / heat)} s`,
			`${step(kj / heat)} s / 60 = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The temperature at the start was not taken off: only the rise takes time.',
			gives: ({ litres, to, heat, litre }) => (litres * litre * to) / heat / 60
		},
		{
			says: 'That is in seconds: it is still to be divided by 60 for minutes.',
			gives: ({ litres, from, to, heat, litre }) => (litres * litre * (to - from)) / heat
		},
		{
			says: 'That is in hours: seconds were divided by 3600, and minutes are asked first.',
			gives: ({ litres, from, to, heat, litre }) => (litres * litre * (to - from)) / heat / 3600
		},
		{ says: 'The 4.19 kJ of each litre and kelvin is missing.', gives: ({ litres, from, to, heat }) => (litres * (to - from)) / heat / 60 }
	]
});

const storedHeat = defineSum({
	id: 'stored-heat',
	drill: 'heat-sums',
	asks: 'What heat does it take to warm this cylinder once?',
	asked: 'figure',
	units: ['kWh', 'MJ'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		litres: { name: 'Cylinder', unit: 'l', step: 5, exact: true },
		from: { name: 'From', unit: 'degC', step: 1, exact: true },
		to: { name: 'To', unit: 'degC', step: 1, exact: true },
		litre: litreHeat
	},
	draw: (chance) => ({ litres: chance.between(100, 300), from: chance.between(8, 20), to: chance.between(55, 65), litre: kjPerLitreK }),
	solve: ({ litres, from, to, litre }) => (litres * litre * (to - from)) / 3600,
	worked({ litres, from, to, litre }, answer) {
		const kj = litres * litre * (to - from);
		return [`${litres} x ${litre} x (${to} - ${from}) = ${step(kj)} kJ`, `A kilowatt-hour is 3600 kJ: ${step(kj)} / 3600 = ${answer}`];
	},
	misconceptions: [
		{
			says: 'The temperature at the start was not taken off: only the rise takes heat.',
			gives: ({ litres, to, litre }) => (litres * litre * to) / 3600
		},
		{
			says: 'Megajoules were taken for kilowatt-hours: there are 3.6 to one.',
			gives: ({ litres, from, to, litre }) => (litres * litre * (to - from)) / 1000
		},
		{
			says: 'It was divided by 60: an hour has 3600 s.',
			gives: ({ litres, from, to, litre }) => (litres * litre * (to - from)) / 60
		}
	]
});

export const storedWaterSums = [mixedTemperature, hotForMixed, reheatTime, storedHeat];
