/** Temperature sensors with a meter across them. */
import { dividerV } from '#shared/physics/circuit.ts';
import { betaOhm, ntc10k, ntcOhm, platinumOhm } from '#shared/physics/thermistor.ts';
import { kelvinOf } from '#shared/quantity/units.ts';
import { defineSum, step } from './sum.ts';

const thermistorResistance = defineSum({
	id: 'thermistor-resistance',
	drill: 'electrical-sums',
	asks: 'A falling (NTC) sensor has no table. What should your meter show at this temperature? R = R25 x exp(B x (1/T - 1/298.15)), with T in kelvin.',
	asked: 'figure',
	units: ['ohm', 'kohm'],
	pace: { quickSeconds: 120, slowSeconds: 420 },
	given: {
		r25: { name: 'R25, at 25 degC', unit: 'ohm', step: 1000, exact: true },
		beta: { name: 'B', unit: 'K', step: 1, exact: true },
		temp: { name: 'Sensor at', unit: 'degC', step: 1, exact: true }
	},
	draw: (chance) => ({
		r25: chance.pick([10000, 12000, 20000]),
		beta: chance.pick([3435, 3750, 3977]),
		temp: chance.pick([chance.between(8, 17), chance.between(38, 85)])
	}),
	solve: ({ r25, beta, temp }) => betaOhm(temp, r25, beta),
	worked({ r25, beta, temp }, answer) {
		const inverse = 1 / kelvinOf(temp) - 1 / kelvinOf(25);
		return [
			`T = ${temp} + 273.15 = ${kelvinOf(temp)} K`,
			`1000 / ${kelvinOf(temp)} - 1000 / 298.15 = ${(1000 * inverse).toFixed(7)}`,
			`${beta} x ${(1000 * inverse).toFixed(7)} / 1000 = ${step(beta * inverse)}, exp of it ${step(Math.exp(beta * inverse))}`,
			`${r25} x ${step(Math.exp(beta * inverse))} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The sign is turned: this sensor falls as it warms.',
			gives: ({ r25, beta, temp }) => (r25 * r25) / betaOhm(temp, r25, beta)
		},
		{
			says: 'It was taken by the ratio of the degrees Celsius; the equation needs kelvin and an exponential.',
			gives: ({ r25, temp }) => (r25 * 25) / temp
		},
		{
			says: 'It was taken by the ratio of the kelvin alone: a sensor like this falls far faster.',
			gives: ({ r25, temp }) => (r25 * kelvinOf(25)) / kelvinOf(temp)
		}
	]
});

const sensorTemperature = defineSum({
	id: 'sensor-temperature',
	drill: 'electrical-sums',
	asks: 'A table gives this sensor at 10 K steps. What temperature does your reading mean, taken straight between two rows?',
	asked: 'figure',
	units: ['degC'],
	atLeast: 0.5,
	named: [40, 50, 60, 70],
	pace: { quickSeconds: 75, slowSeconds: 300 },
	given: {
		at40: { name: 'At 40 degC', unit: 'ohm', step: 1, exact: true },
		at50: { name: 'At 50 degC', unit: 'ohm', step: 1, exact: true },
		at60: { name: 'At 60 degC', unit: 'ohm', step: 1, exact: true },
		at70: { name: 'At 70 degC', unit: 'ohm', step: 1, exact: true },
		read: { name: 'Your meter, sensor off the board', unit: 'ohm', step: 10 }
	},
	draw: (chance) => ({
		at40: ntcOhm(40, ntc10k),
		at50: ntcOhm(50, ntc10k),
		at60: ntcOhm(60, ntc10k),
		at70: ntcOhm(70, ntc10k),
		read: ntcOhm(chance.between(41, 69), ntc10k)
	}),
	solve: (given) => rowsAbout(given).from + 10 * rowsAbout(given).share,
	worked(given, answer) {
		const { from, above, below, share } = rowsAbout(given);
		return [
			`${given.read} ohm lies between ${above} (${from} degC) and ${below} (${from + 10} degC).`,
			`(${above} - ${given.read}) / (${above} - ${below}) = ${step(share)} of the way`,
			`${from} + 10 x ${step(share)} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'It was counted from the wrong row: the resistance falls as the sensor warms.',
			gives: (given) => rowsAbout(given).from + 10 * (1 - rowsAbout(given).share)
		},
		{
			says: 'Temperature was taken as inverse to resistance from the cooler row: go straight between the two rows.',
			gives: (given) => (rowsAbout(given).from * rowsAbout(given).above) / given.read
		}
	]
});

/** The cooler of the rows that a reading lies between, both resistances [ohm], and how far it is to the warmer [-]. */
function rowsAbout({ at40, at50, at60, at70, read }: Readonly<Record<'at40' | 'at50' | 'at60' | 'at70' | 'read', number>>) {
	const [from, above, below] = read > at50 ? [40, at40, at50] : read > at60 ? [50, at50, at60] : [60, at60, at70];
	return { from, above, below, share: (above - read) / (above - below) };
}

/** Mean rise of a Pt1000 from 0 to 100 degC, as it is used on paper [ohm/K]. */
const platinumRise = Math.round(platinumOhm(100, 1000) - 1000) / 100;

const platinumResistance = defineSum({
	id: 'platinum-resistance',
	drill: 'electrical-sums',
	asks: 'A heat-interface unit has platinum sensors (Pt1000: 1000 ohm at 0 degC, rising). What should your meter show?',
	asked: 'figure',
	units: ['ohm', 'kohm'],
	pace: { quickSeconds: 45, slowSeconds: 180 },
	given: {
		rise: { name: 'Rise for each kelvin', unit: 'ohm', step: 0.01, exact: true },
		temp: { name: 'Sensor at', unit: 'degC', step: 1, exact: true }
	},
	draw: (chance) => ({ rise: platinumRise, temp: chance.between(35, 90) }),
	solve: ({ rise, temp }) => 1000 + rise * temp,
	worked: ({ rise, temp }, answer) => [
		`${rise} x ${temp} = ${step(rise * temp)} ohm above 1000`,
		`1000 + ${step(rise * temp)} = ${answer}`
	],
	misconceptions: [
		{ says: 'That is the rise alone: the 1000 ohm at 0 degC are to be added.', gives: ({ rise, temp }) => rise * temp },
		{
			says: 'It was counted from 25 degC, as for a falling sensor: platinum has its 1000 ohm at 0 degC.',
			gives: ({ rise, temp }) => 1000 + rise * (temp - 25)
		},
		{ says: 'Platinum rises as it warms; a falling sensor is the other kind.', gives: ({ rise, temp }) => 1000 - rise * temp },
		{ says: 'That is the rise of a Pt100, a tenth of this one.', gives: ({ rise, temp }) => 1000 + (rise * temp) / 10 }
	]
});

const dividerVoltage = defineSum({
	id: 'divider-voltage',
	drill: 'electrical-sums',
	asks: 'A board feeds a sensor through a fixed resistor and reads the voltage across the sensor. What should you find there?',
	asked: 'figure',
	units: ['V', 'mV'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		supply: { name: 'Supply on the board', unit: 'V', step: 0.01 },
		fixed: { name: 'Fixed resistor', unit: 'ohm', step: 100, exact: true },
		sensor: { name: 'Sensor', unit: 'ohm', step: 10 }
	},
	draw: (chance) => ({
		supply: chance.pick([chance.between(3.25, 3.35), chance.between(4.9, 5.1)]),
		fixed: chance.pick([2200, 4700, 10000]),
		sensor: ntcOhm(chance.between(12, 75), ntc10k)
	}),
	solve: ({ supply, fixed, sensor }) => dividerV(supply, fixed, sensor),
	worked: ({ supply, fixed, sensor }, answer) => [
		`Both together: ${fixed} + ${sensor} = ${fixed + sensor} ohm`,
		`The sensor's share: ${sensor} / ${fixed + sensor} = ${step(sensor / (fixed + sensor))}`,
		`${supply} V x ${step(sensor / (fixed + sensor))} = ${answer}`
	],
	misconceptions: [
		{
			says: 'That is across the fixed resistor; across the sensor is asked.',
			gives: ({ supply, fixed, sensor }) => dividerV(supply, sensor, fixed)
		},
		{
			says: 'The sensor was divided by the resistor alone: its share is of both together.',
			gives: ({ supply, fixed, sensor }) => (supply * sensor) / fixed
		},
		{ says: 'The whole supply was taken: the fixed resistor drops a part of it.', gives: ({ supply }) => supply }
	]
});

export const sensorSums = [thermistorResistance, sensorTemperature, platinumResistance, dividerVoltage];
