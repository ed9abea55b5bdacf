/** Gas through injector and pipe, and gas shut in. */
import { boreMm2, injectorFlowM3h, pressureLossMbar, wobbe } from '#shared/physics/gas.ts';
import { kelvinOf } from '#shared/quantity/units.ts';
import { defineSum, step } from './sum.ts';

const wobbeChange = defineSum({
	id: 'wobbe-change',
	drill: 'gas-sums',
	asks: 'A burner without a ratio control keeps its injector and its pressure while the gas in the main changes. What is its heat input now?',
	asked: 'one',
	units: ['kW'],
	pace: { quickSeconds: 75, slowSeconds: 300 },
	given: {
		before: { name: 'Heat input before', unit: 'kW', step: 0.1 },
		gross1: { name: 'Calorific value before', unit: 'MJ/m3', step: 0.1 },
		density1: { name: 'Relative density before', unit: '', step: 0.001 },
		gross2: { name: 'Calorific value now', unit: 'MJ/m3', step: 0.1 },
		density2: { name: 'Relative density now', unit: '', step: 0.001 }
	},
	draw: (chance) => ({
		before: chance.between(12, 32),
		gross1: chance.between(38, 40),
		density1: chance.between(0.56, 0.59),
		gross2: chance.between(32.5, 36.5),
		density2: chance.between(0.6, 0.66)
	}),
	solve: ({ before, gross1, density1, gross2, density2 }) => (before * wobbe(gross2, density2)) / wobbe(gross1, density1),
	worked({ before, gross1, density1, gross2, density2 }, answer) {
		const [first, second] = [wobbe(gross1, density1), wobbe(gross2, density2)];
		return [
			'At one injector and one pressure, heat goes with the Wobbe number: calorific value over the root of the relative density.',
			`Before: ${gross1} / root ${density1} = ${step(first)} MJ/m3`,
			`Now: ${gross2} / root ${density2} = ${step(second)} MJ/m3`,
			`${before} kW x ${step(second)} / ${step(first)} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'Only the calorific value was counted: a denser gas also flows more slowly.',
			gives: ({ before, gross1, gross2 }) => (before * gross2) / gross1
		},
		{
			says: 'The density was taken without its square root.',
			gives: ({ before, gross1, density1, gross2, density2 }) => (before * gross2 * density1) / (gross1 * density2)
		},
		{
			says: 'The ratio is upside down: a lower Wobbe number brings less heat.',
			gives: ({ before, gross1, density1, gross2, density2 }) => (before * wobbe(gross1, density1)) / wobbe(gross2, density2)
		}
	]
});

const injectorBore = defineSum({
	id: 'injector-bore',
	drill: 'gas-sums',
	asks: 'A burner is found with the wrong injector in it. What would the heat input be with the right one, at the same burner pressure?',
	asked: 'figure',
	units: ['kW'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		found: { name: 'Heat input as found', unit: 'kW', step: 0.1 },
		wrong: { name: 'Bore as found', unit: 'mm', step: 0.05, exact: true },
		proper: { name: 'Right bore', unit: 'mm', step: 0.05, exact: true }
	},
	draw(chance) {
		const proper = chance.between(1.1, 1.5);
		return { found: chance.between(9, 22), wrong: proper + chance.pick([-0.2, -0.15, -0.1, 0.1, 0.15, 0.2]), proper };
	},
	solve: ({ found, wrong, proper }) => (found * boreMm2(proper)) / boreMm2(wrong),
	worked: ({ found, wrong, proper }, answer) => [
		'At one pressure the gas goes with the area of the bore, and that with the square of its diameter.',
		`${proper} / ${wrong} = ${step(proper / wrong)}, squared ${step((proper / wrong) ** 2)}`,
		`${found} kW x ${step((proper / wrong) ** 2)} = ${answer}`
	],
	misconceptions: [
		{
			says: 'The diameter was taken as it is: area goes with its square.',
			gives: ({ found, wrong, proper }) => (found * proper) / wrong
		},
		{
			says: 'The ratio is upside down: a larger bore passes more.',
			gives: ({ found, wrong, proper }) => found * (wrong / proper) ** 2
		},
		{
			says: 'It was squared twice: the area goes with the square of the diameter, once.',
			gives: ({ found, wrong, proper }) => found * (proper / wrong) ** 4
		}
	]
});

const injectorPressure = defineSum({
	id: 'injector-pressure',
	drill: 'gas-sums',
	asks: 'The burner pressure of an appliance with a fixed injector has changed; no fan mixes its air. What is its gas rate now?',
	asked: 'figure',
	units: ['m3/h', 'l/min'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		rate: { name: 'Gas rate before', unit: 'm3/h', step: 0.01 },
		before: { name: 'Burner pressure before', unit: 'mbar', step: 0.1 },
		now: { name: 'Burner pressure now', unit: 'mbar', step: 0.1 }
	},
	draw(chance) {
		const before = chance.between(9, 16);
		return { rate: chance.between(1.2, 3.2), before, now: before * chance.pick([chance.between(0.45, 0.8), chance.between(1.2, 1.5)]) };
	},
	// Bore, density and coefficient fall out of the ratio: those of any injector and gas serve.
	solve: ({ rate, before, now }) => (rate * injectorFlowM3h(1, now, 0.58, 0.9)) / injectorFlowM3h(1, before, 0.58, 0.9),
	worked: ({ rate, before, now }, answer) => [
		'Flow through an injector goes with the square root of the pressure before it.',
		`${now} / ${before} = ${step(now / before)}, its root ${step(Math.sqrt(now / before))}`,
		`${rate} m3/h x ${step(Math.sqrt(now / before))} = ${answer}`
	],
	misconceptions: [
		{
			says: 'The root was forgotten: flow goes with the square root of pressure, not with pressure.',
			gives: ({ rate, before, now }) => (rate * now) / before
		},
		{
			says: 'It was squared where the root is to be taken: that is the way from flow to pressure.',
			gives: ({ rate, before, now }) => rate * (now / before) ** 2
		},
		{ says: 'The ratio is upside down.', gives: ({ rate, before, now }) => rate * Math.sqrt(before / now) }
	]
});

const burnerPressure = defineSum({
	id: 'burner-pressure',
	drill: 'gas-sums',
	asks: 'You are to set the burner pressure for another gas rate through the same injector. What will it be?',
	asked: 'figure',
	units: ['mbar'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		pressure: { name: 'Burner pressure', unit: 'mbar', step: 0.1 },
		rate: { name: 'Gas rate at it', unit: 'm3/h', step: 0.01 },
		wanted: { name: 'Gas rate wanted', unit: 'm3/h', step: 0.01, exact: true }
	},
	draw(chance) {
		const rate = chance.between(1.6, 3);
		return { pressure: chance.between(8, 14), rate, wanted: rate * chance.pick([chance.between(0.65, 0.85), chance.between(1.12, 1.3)]) };
	},
	solve: ({ pressure, rate, wanted }) => pressureLossMbar(wanted, pressure, rate),
	worked: ({ pressure, rate, wanted }, answer) => [
		'Pressure at an injector goes with the square of the flow.',
		`${wanted} / ${rate} = ${step(wanted / rate)}, squared ${step((wanted / rate) ** 2)}`,
		`${pressure} mbar x ${step((wanted / rate) ** 2)} = ${answer}`
	],
	misconceptions: [
		{
			says: 'The square was forgotten: pressure goes with the square of the flow.',
			gives: ({ pressure, rate, wanted }) => (pressure * wanted) / rate
		},
		{
			says: 'The root was taken where it is to be squared: that is the way from pressure to flow.',
			gives: ({ pressure, rate, wanted }) => pressure * Math.sqrt(wanted / rate)
		},
		{ says: 'The ratio is upside down.', gives: ({ pressure, rate, wanted }) => pressureLossMbar(rate, pressure, wanted) }
	]
});

const workingPressure = defineSum({
	id: 'working-pressure',
	drill: 'gas-sums',
	asks: 'You measured the loss from meter to boiler with the boiler alone. Now the hob and fire on the same pipe burn as well. What working pressure is left at the boiler?',
	asked: 'figure',
	units: ['mbar'],
	pace: { quickSeconds: 75, slowSeconds: 300 },
	given: {
		meter: { name: 'At the meter', unit: 'mbar', step: 0.1 },
		loss: { name: 'Loss with the boiler alone', unit: 'mbar', step: 0.1 },
		alone: { name: 'Gas rate with the boiler alone', unit: 'm3/h', step: 0.01 },
		all: { name: 'Gas rate with all', unit: 'm3/h', step: 0.01 }
	},
	draw(chance) {
		const alone = chance.between(1.5, 2.6);
		return { meter: chance.between(19.5, 22.5), loss: chance.between(0.8, 1.6), alone, all: alone * chance.between(1.5, 2) };
	},
	solve: ({ meter, loss, alone, all }) => meter - pressureLossMbar(all, loss, alone),
	worked({ meter, loss, alone, all }, answer) {
		const ratio = all / alone;
		return [
			`${all} / ${alone} = ${step(ratio)}, squared ${step(ratio ** 2)}: loss goes with the square of the flow.`,
			`${loss} mbar x ${step(ratio ** 2)} = ${step(pressureLossMbar(all, loss, alone))} mbar lost`,
			`${meter} - ${step(pressureLossMbar(all, loss, alone))} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The square was forgotten: the loss goes with the square of the flow.',
			gives: ({ meter, loss, alone, all }) => meter - (loss * all) / alone
		},
		{ says: 'The old loss was taken, as though more gas lost no more.', gives: ({ meter, loss }) => meter - loss },
		{ says: 'That is the loss; what is left at the boiler is asked.', gives: ({ loss, alone, all }) => pressureLossMbar(all, loss, alone) }
	]
});

const tightnessWarming = defineSum({
	id: 'tightness-warming',
	drill: 'gas-sums',
	asks: 'Pipework is shut in for a tightness test and warms while you wait. If nothing leaks, what does the gauge show at the end?',
	asked: 'figure',
	units: ['mbar'],
	pace: { quickSeconds: 120, slowSeconds: 420 },
	given: {
		gauge: { name: 'On the gauge at the start', unit: 'mbar', step: 0.1 },
		air: { name: 'Pressure of the air outside', unit: 'mbar', step: 1, exact: true },
		before: { name: 'Gas at the start', unit: 'degC', step: 0.1 },
		after: { name: 'Gas at the end', unit: 'degC', step: 0.1 }
	},
	draw(chance) {
		const before = chance.between(8, 18);
		return { gauge: chance.between(19, 21), air: chance.between(995, 1025), before, after: before + chance.between(1.2, 3) };
	},
	solve: ({ gauge, air, before, after }) => ((gauge + air) * kelvinOf(after)) / kelvinOf(before) - air,
	worked({ gauge, air, before, after }, answer) {
		// More figures than usual: the air's pressure is taken off again at the end.
		const end = ((gauge + air) * kelvinOf(after)) / kelvinOf(before);
		return [
			`Above nothing, not above the air: ${gauge} + ${air} = ${(gauge + air).toFixed(1)} mbar`,
			`In kelvin: ${kelvinOf(before).toFixed(2)} K and ${kelvinOf(after).toFixed(2)} K`,
			`${(gauge + air).toFixed(1)} x ${kelvinOf(after).toFixed(2)} / ${kelvinOf(before).toFixed(2)} = ${end.toFixed(4)} mbar`,
			`${end.toFixed(4)} - ${air} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The gauge pressure was taken as absolute: the air outside is to be added before, and taken off after.',
			gives: ({ gauge, before, after }) => (gauge * kelvinOf(after)) / kelvinOf(before)
		},
		{
			says: 'Degrees Celsius were taken in place of kelvin.',
			gives: ({ gauge, air, before, after }) => ((gauge + air) * after) / before - air
		},
		{
			says: 'The ratio is upside down: gas shut in and warmed pushes harder.',
			gives: ({ gauge, air, before, after }) => ((gauge + air) * kelvinOf(before)) / kelvinOf(after) - air
		}
	]
});

export const gasPressureSums = [wobbeChange, injectorBore, injectorPressure, burnerPressure, workingPressure, tightnessWarming];
