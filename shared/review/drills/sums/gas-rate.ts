/** Gas counted at a meter, and the heat in it. */
import { meterFactor, meteredHeatKwh, gases } from '#shared/physics/gas.ts';
import { cubicFootM3, kwhOfMj } from '#shared/quantity/units.ts';
import { defineSum, step } from './sum.ts';

/** Gross over net calorific value of natural gas as it is divided by on site [-]: 1.1105 for pure methane. */
const grossOverNet = Math.round((gases.G20.grossMjPerM3 / gases.G20.netMjPerM3) * 100) / 100;

const perHour = (m3: number, seconds: number): number => (m3 * 3600) / seconds;

/** Works to the rate from what the meter counted in so many seconds, and its misreadings. */
const gasRateMetric = defineSum({
	id: 'gas-rate-metric',
	drill: 'gas-sums',
	asks: 'You time a metric gas meter with only the boiler burning, at full rate. What is the gas rate?',
	asked: 'figure',
	units: ['m3/h', 'l/min'],
	pace: { quickSeconds: 45, slowSeconds: 180 },
	given: {
		counted: { name: 'Counted', unit: 'm3', step: 0.001 },
		seconds: { name: 'In', unit: 's', step: 1, exact: true }
	},
	draw(chance) {
		const seconds = chance.pick([100, 120, 150, 180, 240]);
		return { seconds, counted: (chance.between(1.5, 3.6) * seconds) / 3600 };
	},
	solve: ({ counted, seconds }) => perHour(counted, seconds),
	worked: ({ counted, seconds }, answer) => [
		`An hour has 3600 s, which is ${step(3600 / seconds)} times ${seconds} s.`,
		`${counted} m3 x ${step(3600 / seconds)} = ${answer}`
	],
	misconceptions: [
		{
			says: 'That is the gas of a minute, not of an hour: seconds were turned into minutes and left there.',
			gives: ({ counted, seconds }) => (counted * 60) / seconds
		},
		{ says: 'The count was taken as that of one minute, whatever the time was.', gives: ({ counted }) => counted * 60 },
		{
			says: 'The division is upside down: seconds over gas in place of gas over seconds.',
			gives: ({ counted, seconds }) => seconds / (counted * 3600)
		}
	]
});

const gasRateTestDial = defineSum({
	id: 'gas-rate-test-dial',
	drill: 'gas-sums',
	asks: 'You time the test dial of an imperial gas meter with only the boiler burning. One turn is one cubic foot. What is the gas rate?',
	asked: 'figure',
	units: ['m3/h', 'ft3/h'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		turns: { name: 'Turns timed', unit: '', step: 1, exact: true },
		seconds: { name: 'Time for them', unit: 's', step: 1 },
		cubicFoot: { name: 'One cubic foot', unit: 'm3', step: 0.0001 }
	},
	draw(chance) {
		const turns = chance.pick([2, 3, 4]);
		return { turns, seconds: (turns * cubicFootM3 * 3600) / chance.between(1.3, 3.4), cubicFoot: cubicFootM3 };
	},
	solve: ({ turns, seconds, cubicFoot }) => perHour(turns * cubicFoot, seconds),
	worked: ({ turns, seconds, cubicFoot }, answer) => [
		`${turns} turns are ${turns} ft3: ${turns} x ${cubicFoot} = ${step(turns * cubicFoot)} m3.`,
		`${step(turns * cubicFoot)} m3 x 3600 / ${seconds} s = ${answer}`
	],
	misconceptions: [
		{
			says: 'Cubic feet were taken for cubic metres: a cubic foot is 0.0283 m3.',
			gives: ({ turns, seconds }) => perHour(turns, seconds)
		},
		{
			says: 'One turn was counted; the time was that of all of them.',
			gives: ({ seconds, cubicFoot }) => perHour(cubicFoot, seconds)
		},
		{
			says: 'That is the gas of a minute, not of an hour.',
			gives: ({ turns, seconds, cubicFoot }) => perHour(turns * cubicFoot, seconds) / 60
		}
	]
});

const heatInputGross = defineSum({
	id: 'heat-input-gross',
	drill: 'gas-sums',
	asks: 'What heat input is this gas rate, on gross calorific value? Leave out the correction for temperature and pressure, as is common on site.',
	asked: 'figure',
	units: ['kW'],
	pace: { quickSeconds: 45, slowSeconds: 180 },
	given: {
		rate: { name: 'Gas rate', unit: 'm3/h', step: 0.01 },
		gross: { name: 'Calorific value, gross', unit: 'MJ/m3', step: 0.1 }
	},
	draw: (chance) => ({ rate: chance.between(1.5, 3.6), gross: chance.between(38, 40.5) }),
	solve: ({ rate, gross }) => kwhOfMj(rate * gross),
	worked: ({ rate, gross }, answer) => [
		`${rate} m3/h x ${gross} MJ/m3 = ${step(rate * gross)} MJ/h`,
		`One kilowatt is 3.6 MJ/h: ${step(rate * gross)} / 3.6 = ${answer}`
	],
	misconceptions: [
		{ says: 'Megajoules an hour were taken for kilowatts: the 3.6 is missing.', gives: ({ rate, gross }) => rate * gross },
		{ says: 'It was multiplied by 3.6 where it is to be divided.', gives: ({ rate, gross }) => rate * gross * 3.6 },
		{
			says: 'That is the net input: it was divided by 1.11 though gross is asked.',
			gives: ({ rate, gross }) => kwhOfMj(rate * gross) / grossOverNet
		},
		{
			says: 'The count was corrected by 1.02264, as for a bill. The question leaves that out.',
			gives: ({ rate, gross }) => meteredHeatKwh(rate, gross)
		}
	]
});

const heatInputNet = defineSum({
	id: 'heat-input-net',
	drill: 'gas-sums',
	asks: 'The data plate gives the net heat input, so that is what you compare. What net heat input does this count show? No correction for temperature and pressure.',
	asked: 'figure',
	units: ['kW'],
	pace: { quickSeconds: 90, slowSeconds: 300 },
	given: {
		counted: { name: 'Counted', unit: 'm3', step: 0.001 },
		seconds: { name: 'In', unit: 's', step: 1, exact: true },
		gross: { name: 'Calorific value, gross', unit: 'MJ/m3', step: 0.1 },
		ratio: { name: 'Gross over net', unit: '', step: 0.01, exact: true }
	},
	draw(chance) {
		const seconds = chance.pick([100, 120, 150, 180]);
		const counted = (chance.between(1.6, 3.6) * seconds) / 3600;
		return { counted, seconds, gross: chance.between(38, 40.5), ratio: grossOverNet };
	},
	solve: ({ counted, seconds, gross, ratio }) => kwhOfMj(perHour(counted, seconds) * gross) / ratio,
	worked({ counted, seconds, gross, ratio }, answer) {
		const rate = perHour(counted, seconds);
		return [
			`${counted} m3 x 3600 / ${seconds} s = ${step(rate)} m3/h`,
			`${step(rate)} x ${gross} / 3.6 = ${step(kwhOfMj(rate * gross))} kW gross`,
			`${step(kwhOfMj(rate * gross))} / ${ratio} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'That is the gross input: it is still to be divided by 1.11.',
			gives: ({ counted, seconds, gross }) => kwhOfMj(perHour(counted, seconds) * gross)
		},
		{
			says: 'It was multiplied by 1.11 where it is to be divided: net is less than gross.',
			gives: ({ counted, seconds, gross, ratio }) => kwhOfMj(perHour(counted, seconds) * gross) * ratio
		},
		{
			says: 'Megajoules an hour were taken for kilowatts: the 3.6 is missing.',
			gives: ({ counted, seconds, gross, ratio }) => (perHour(counted, seconds) * gross) / ratio
		},
		{
			says: 'The count was taken as that of one minute, whatever the time was.',
			gives: ({ counted, gross, ratio }) => kwhOfMj(counted * 60 * gross) / ratio
		}
	]
});

const heatBilled = defineSum({
	id: 'heat-billed',
	drill: 'gas-sums',
	asks: 'A customer doubts the bill. What heat has gone through the metric meter between these readings, corrected as bills are?',
	asked: 'figure',
	units: ['kWh', 'MJ'],
	pace: { quickSeconds: 75, slowSeconds: 300 },
	given: {
		before: { name: 'Reading before', unit: 'm3', step: 1, exact: true },
		after: { name: 'Reading now', unit: 'm3', step: 1, exact: true },
		factor: { name: 'Correction for temperature and pressure', unit: '', step: 0.00001, exact: true },
		gross: { name: 'Calorific value, gross', unit: 'MJ/m3', step: 0.1 }
	},
	draw(chance) {
		const before = chance.between(1200, 8800);
		return { before, after: before + chance.between(60, 420), factor: meterFactor, gross: chance.between(38, 40.5) };
	},
	solve: ({ before, after, factor, gross }) => kwhOfMj((after - before) * factor * gross),
	worked: ({ before, after, factor, gross }, answer) => [
		`${after} - ${before} = ${after - before} m3 counted`,
		`${after - before} x ${factor} = ${step((after - before) * factor)} m3 corrected`,
		`${step((after - before) * factor)} x ${gross} / 3.6 = ${answer}`
	],
	misconceptions: [
		{
			says: 'The correction of 1.02264 was left out: bills have it.',
			gives: ({ before, after, gross }) => kwhOfMj((after - before) * gross)
		},
		{
			says: 'Megajoules were taken for kilowatt-hours: the 3.6 is missing.',
			gives: ({ before, after, factor, gross }) => (after - before) * factor * gross
		},
		{ says: 'The whole reading was taken, not what was added since.', gives: ({ after, gross }) => meteredHeatKwh(after, gross) },
		{
			says: 'It was divided by 1.11: bills are on gross calorific value.',
			gives: ({ before, after, gross }) => meteredHeatKwh(after - before, gross) / grossOverNet
		}
	]
});

export const gasRateSums = [gasRateMetric, gasRateTestDial, heatInputGross, heatInputNet, heatBilled];
