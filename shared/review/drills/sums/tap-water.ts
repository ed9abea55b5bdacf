/** Water warmed as it runs: temperature, flow, heat, time. */
import { kjPerLitreK, litreHeat } from './heat-of-a-litre.ts';
import { defineSum, step } from './sum.ts';

const tapTemperature = defineSum({
	id: 'tap-temperature',
	drill: 'heat-sums',
	asks: 'A combination boiler puts this heat into the tap water. How hot is the water at the tap?',
	asked: 'figure',
	units: ['degC'],
	atLeast: 0.5,
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		heat: { name: 'Heat into the water', unit: 'kW', step: 0.1 },
		flow: { name: 'Flow', unit: 'l/min', step: 0.1 },
		cold: { name: 'Cold main', unit: 'degC', step: 0.5 },
		litre: litreHeat
	},
	draw(chance) {
		const heat = chance.between(18, 32);
		return { heat, flow: (heat * 60) / (kjPerLitreK * chance.between(26, 42)), cold: chance.between(5, 16), litre: kjPerLitreK };
	},
	solve: ({ heat, flow, cold, litre }) => cold + (heat * 60) / (litre * flow),
	worked: ({ heat, flow, cold, litre }, answer) => [
		`${heat} kW is ${heat} kJ a second, ${step(heat * 60)} kJ a minute.`,
		`${step(heat * 60)} / (${litre} x ${flow}) = ${step((heat * 60) / (litre * flow))} K of rise`,
		`${cold} + ${step((heat * 60) / (litre * flow))} = ${answer}`
	],
	misconceptions: [
		{
			says: 'That is the rise: the temperature of the cold main is to be added.',
			gives: ({ heat, flow, litre }) => (heat * 60) / (litre * flow)
		},
		{
			says: 'Seconds and minutes were mixed: a kilowatt is a kilojoule a second, the flow is of a minute.',
			gives: ({ heat, flow, cold, litre }) => cold + heat / (litre * flow)
		},
		{
			says: 'The 4.19 kJ of each litre and kelvin is missing.',
			gives: ({ heat, flow, cold }) => cold + (heat * 60) / flow
		}
	]
});

const flowForRise = defineSum({
	id: 'flow-for-rise',
	drill: 'heat-sums',
	asks: 'What flow will this boiler heat to the temperature that the customer wants?',
	asked: 'figure',
	units: ['l/min', 'l/s'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		heat: { name: 'Heat into the water', unit: 'kW', step: 0.1 },
		cold: { name: 'Cold main', unit: 'degC', step: 0.5 },
		wanted: { name: 'Wanted at the tap', unit: 'degC', step: 1, exact: true },
		litre: litreHeat
	},
	draw: (chance) => ({ heat: chance.between(18, 35), cold: chance.between(4, 16), wanted: chance.between(38, 50), litre: kjPerLitreK }),
	solve: ({ heat, cold, wanted, litre }) => (heat * 60) / (litre * (wanted - cold)),
	worked: ({ heat, cold, wanted, litre }, answer) => [
		`Rise: ${wanted} - ${cold} = ${wanted - cold} K`,
		`Each litre takes ${litre} x ${wanted - cold} = ${step(litre * (wanted - cold))} kJ.`,
		`${heat} kW is ${step(heat * 60)} kJ a minute: ${step(heat * 60)} / ${step(litre * (wanted - cold))} = ${answer}`
	],
	misconceptions: [
		{
			says: 'The cold main was not taken off: only the rise has to be paid for in heat.',
			gives: ({ heat, wanted, litre }) => (heat * 60) / (litre * wanted)
		},
		{
			says: 'That is litres a second: there are 60 s in the minute asked for.',
			gives: ({ heat, cold, wanted, litre }) => heat / (litre * (wanted - cold))
		},
		{ says: 'The 4.19 kJ of each litre and kelvin is missing.', gives: ({ heat, cold, wanted }) => (heat * 60) / (wanted - cold) }
	]
});

const heatOutput = defineSum({
	id: 'heat-output',
	drill: 'heat-sums',
	asks: 'You weigh a boiler up at the tap. What heat is it putting into the water?',
	asked: 'figure',
	units: ['kW'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		flow: { name: 'Flow', unit: 'l/min', step: 0.1 },
		cold: { name: 'Cold main', unit: 'degC', step: 0.1 },
		hot: { name: 'At the tap', unit: 'degC', step: 0.1 },
		litre: litreHeat
	},
	draw(chance) {
		const cold = chance.between(5, 16);
		return { flow: chance.between(7, 14), cold, hot: cold + chance.between(20, 38), litre: kjPerLitreK };
	},
	solve: ({ flow, cold, hot, litre }) => (flow * litre * (hot - cold)) / 60,
	worked({ flow, cold, hot, litre }, answer) {
		const rise = hot - cold;
		return [
			`Rise: ${hot} - ${cold} = ${step(rise)} K`,
			`${flow} x ${litre} x ${step(rise)} = ${step(flow * litre * rise)} kJ a minute`,
			`${step(flow * litre * rise)} / 60 s = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The cold main was not taken off: only the rise was put in by the boiler.',
			gives: ({ flow, hot, litre }) => (flow * litre * hot) / 60
		},
		{
			says: 'That is kilojoules a minute: a kilowatt is a kilojoule a second.',
			gives: ({ flow, cold, hot, litre }) => flow * litre * (hot - cold)
		},
		{ says: 'The 4.19 kJ of each litre and kelvin is missing.', gives: ({ flow, cold, hot }) => (flow * (hot - cold)) / 60 },
		{
			says: 'It was divided by 3.6, which belongs to megajoules and kilowatt-hours, where a minute is 60 s.',
			gives: ({ flow, cold, hot, litre }) => (flow * litre * (hot - cold)) / 3.6
		}
	]
});

const bathTime = defineSum({
	id: 'bath-time',
	drill: 'heat-sums',
	asks: 'How long does this combination boiler take to fill a bath, all of it through the boiler?',
	asked: 'figure',
	units: ['min', 's'],
	pace: { quickSeconds: 75, slowSeconds: 300 },
	given: {
		litres: { name: 'Bath', unit: 'l', step: 5, exact: true },
		heat: { name: 'Heat into the water', unit: 'kW', step: 0.1 },
		cold: { name: 'Cold main', unit: 'degC', step: 0.5 },
		warm: { name: 'Bath water', unit: 'degC', step: 1, exact: true },
		litre: litreHeat
	},
	draw: (chance) => ({
		litres: chance.between(90, 160),
		heat: chance.between(18, 32),
		cold: chance.between(4, 9),
		warm: chance.between(40, 43),
		litre: kjPerLitreK
	}),
	solve: ({ litres, heat, cold, warm, litre }) => (litres * litre * (warm - cold)) / heat / 60,
	worked({ litres, heat, cold, warm, litre }, answer) {
		const kj = litres * litre * (warm - cold);
		return [
			`Rise: ${warm} - ${cold} = ${warm - cold} K`,
			`${litres} x ${litre} x ${warm - cold} = ${step(kj)} kJ`,
			`${step(kj)} kJ / ${heat} kW = ${step(kj / heat)} s`,
			`${step(kj / heat)} s / 60 = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The cold main was not taken off: only the rise takes time.',
			gives: ({ litres, heat, warm, litre }) => (litres * litre * warm) / heat / 60
		},
		{
			says: 'That is in seconds: it is still to be divided by 60 for minutes.',
			gives: ({ litres, heat, cold, warm, litre }) => (litres * litre * (warm - cold)) / heat
		},
		{
			says: 'The flow at a rise of 30 K was taken, as it is declared; the rise here is another.',
			gives: ({ litres, heat, litre }) => (litres * litre * 30) / heat / 60
		}
	]
});

export const tapWaterSums = [tapTemperature, flowForRise, heatOutput, bathTime];
