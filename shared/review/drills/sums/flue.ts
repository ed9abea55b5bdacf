/** What leaves by the flue: heat, vapour, water. Natural gas taken as methane. */
import { combustionOf, condensedPerFuel } from '#shared/physics/combustion.ts';
import { saturationKpa } from '#shared/physics/water.ts';
import { defineSum, step, type GivenFigure } from './sum.ts';

const methane = combustionOf('G20');

const flueLoss = defineSum({
	id: 'flue-loss',
	drill: 'combustion-sums',
	asks: 'What share of the net heat leaves by this dry flue? Loss in % = (flue - air) x (A / CO2 + B).',
	asked: 'figure',
	units: ['%'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		flue: { name: 'Flue', unit: 'degC', step: 1 },
		air: { name: 'Air', unit: 'degC', step: 1 },
		co2: { name: 'CO2', unit: '%', step: 0.1 },
		a: { name: 'A, natural gas', unit: '', step: 0.01, exact: true },
		b: { name: 'B, natural gas', unit: '', step: 0.001, exact: true }
	},
	draw: (chance) => ({ flue: chance.between(90, 190), air: chance.between(14, 26), co2: chance.between(5.5, 9.5), a: 0.37, b: 0.009 }),
	solve: ({ flue, air, co2, a, b }) => (flue - air) * (a / co2 + b),
	worked: ({ flue, air, co2, a, b }, answer) => [
		`${flue} - ${air} = ${flue - air} K`,
		`${a} / ${co2} + ${b} = ${step(a / co2 + b)}`,
		`${flue - air} x ${step(a / co2 + b)} = ${answer}`
	],
	misconceptions: [
		{
			says: 'The air was not taken off: heat that came in with the air is no loss.',
			gives: ({ flue, co2, a, b }) => flue * (a / co2 + b)
		},
		{ says: 'B is missing: it is the share of the water vapour.', gives: ({ flue, air, co2, a }) => ((flue - air) * a) / co2 },
		{
			says: 'That is what stays in the boiler; the loss is asked.',
			gives: ({ flue, air, co2, a, b }) => 100 - (flue - air) * (a / co2 + b)
		}
	]
});

const saturated = (tempC: number): GivenFigure => ({ name: `Vapour saturated at ${tempC} degC`, unit: 'mbar', step: 0.1, exact: true });
const rows = [40, 45, 50, 55, 60] as const;
const saturatedMbar = (tempC: number): number => 10 * saturationKpa(tempC);

/** Temperature at which a pressure stands in the table, straight between rows, and on beyond the last of them [degC]. */
function byTable(mbar: number): { readonly from: number; readonly below: number; readonly above: number; readonly tempC: number } {
	const from = rows.findLast((row) => row < 60 && saturatedMbar(row) <= mbar) ?? 40;
	const [below, above] = [Number(saturatedMbar(from).toFixed(1)), Number(saturatedMbar(from + 5).toFixed(1))];
	return { from, below, above, tempC: from + (5 * (mbar - below)) / (above - below) };
}

/** Air and dry products at the air that burning takes, as they are used on paper [m3/m3]. */
const [airM3, dryM3] = [Number(methane.airM3.toFixed(2)), Number(methane.dryM3.toFixed(2))];

const dewPoint = defineSum({
	id: 'dew-point',
	drill: 'combustion-sums',
	asks: 'Below what return temperature does this flue begin to condense? A cubic metre of gas gives 2 m3 of vapour. The flue is at 1013 mbar; take the air as dry and go straight between two rows.',
	asked: 'figure',
	units: ['degC'],
	atLeast: 0.4,
	named: rows,
	pace: { quickSeconds: 150, slowSeconds: 480 },
	given: {
		lambda: { name: 'Air ratio, lambda', unit: '', step: 0.01 },
		dry: { name: 'Dry products at lambda 1', unit: 'm3/m3', step: 0.01, exact: true },
		air: { name: 'Air at lambda 1', unit: 'm3/m3', step: 0.01, exact: true },
		at40: saturated(40),
		at45: saturated(45),
		at50: saturated(50),
		at55: saturated(55),
		at60: saturated(60)
	},
	draw: (chance) => ({
		lambda: chance.between(1.18, 1.8),
		dry: dryM3,
		air: airM3,
		at40: saturatedMbar(40),
		at45: saturatedMbar(45),
		at50: saturatedMbar(50),
		at55: saturatedMbar(55),
		at60: saturatedMbar(60)
	}),
	solve: ({ lambda, dry, air }) => byTable((1013 * 2) / (2 + dry + (lambda - 1) * air)).tempC,
	worked({ lambda, dry, air }, answer) {
		const flue = 2 + dry + (lambda - 1) * air;
		const mbar = (1013 * 2) / flue;
		const { from, below, above } = byTable(mbar);
		return [
			`Flue gas: 2 + ${dry} + ${step(lambda - 1)} x ${air} = ${step(flue)} m3, of which 2 are vapour`,
			`1013 mbar x 2 / ${step(flue)} = ${step(mbar)} mbar of vapour`,
			`That lies ${step((mbar - below) / (above - below))} of the way from ${below} (${from} degC) to ${above} (${from + 5} degC).`,
			`${from} + 5 x ${step((mbar - below) / (above - below))} = ${answer}`
		];
	},
	misconceptions: [
		{
			says: 'The excess air was left out: it thins the vapour and lowers the dew point.',
			gives: ({ dry }) => byTable((1013 * 2) / (2 + dry)).tempC
		},
		{
			says: 'The vapour was divided by the dry gas alone: its share is of all the flue gas, itself included.',
			gives: ({ lambda, dry, air }) => byTable((1013 * 2) / (dry + (lambda - 1) * air)).tempC
		},
		{
			says: 'All the air was added to the products: only the excess, lambda less 1, is still air.',
			gives: ({ lambda, dry, air }) => byTable((1013 * 2) / (2 + dry + lambda * air)).tempC
		}
	]
});

/** Water of burning a cubic metre of methane: two of vapour, 18.015 g/mol, in the molar volume of the gas [kg/m3]. */
const waterKgPerM3 = Number(((2 * 18.015 * methane.netMjPerM3) / methane.netKjPerMol).toFixed(2));

const condensateRate = defineSum({
	id: 'condensate-rate',
	drill: 'combustion-sums',
	asks: 'A condensate pump keeps tripping. How much water does this boiler make in an hour? A kilogram is a litre.',
	asked: 'one',
	units: ['l/h'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		rate: { name: 'Gas rate', unit: 'm3/h', step: 0.01 },
		water: { name: 'Water from burning 1 m3 of gas', unit: 'kg', step: 0.01, exact: true },
		share: { name: 'Part of it that condenses', unit: '%', step: 1 }
	},
	draw(chance) {
		const flue = { lambda: chance.between(1.2, 1.35), flueTempC: chance.between(34, 50), airTempC: 15, gas: methane };
		return { rate: chance.between(1.2, 3.4), water: waterKgPerM3, share: (100 * condensedPerFuel(flue)) / methane.vapourM3 };
	},
	solve: ({ rate, water, share }) => (rate * water * share) / 100,
	worked: ({ rate, water, share }, answer) => [
		`${rate} m3/h x ${water} = ${step(rate * water)} kg/h of water`,
		`${step(rate * water)} x ${share} / 100 = ${answer}`
	],
	misconceptions: [
		{ says: 'That is all the water of burning: a part of it leaves as vapour.', gives: ({ rate, water }) => rate * water },
		{
			says: 'That is what leaves as vapour; what condenses is asked.',
			gives: ({ rate, water, share }) => rate * water * (1 - share / 100)
		},
		{ says: 'The water of a cubic metre of gas is missing.', gives: ({ rate, share }) => (rate * share) / 100 }
	]
});

export const flueSums = [flueLoss, dewPoint, condensateRate];
