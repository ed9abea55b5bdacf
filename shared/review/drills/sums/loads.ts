/** Mains loads: current, fuse, elements and windings. */
import { parallelOhm, windingOhm } from '#shared/physics/circuit.ts';
import { defineSum, step, type GivenFigure } from './sum.ts';

const mains: GivenFigure = { name: 'Supply', unit: 'V', step: 1, exact: true };

const loadCurrent = defineSum({
	id: 'load-current',
	drill: 'electrical-sums',
	asks: 'An immersion heater is thought to be open in part. What should a clamp meter show with a sound one?',
	asked: 'figure',
	units: ['A', 'mA'],
	pace: { quickSeconds: 30, slowSeconds: 150 },
	given: { power: { name: 'Heater', unit: 'kW', step: 0.01 }, supply: mains },
	draw: (chance) => ({ power: chance.between(1, 3), supply: chance.between(224, 246) }),
	solve: ({ power, supply }) => (power * 1000) / supply,
	worked: ({ power, supply }, answer) => [`${power} kW is ${step(power * 1000)} W.`, `${step(power * 1000)} W / ${supply} V = ${answer}`],
	misconceptions: [
		{ says: 'Kilowatts were taken for watts: the thousand is missing.', gives: ({ power, supply }) => power / supply },
		{ says: 'The division is upside down: current is watts over volts.', gives: ({ power, supply }) => supply / (power * 1000) },
		{
			says: 'That is the resistance: volts squared over watts.',
			gives: ({ power, supply }) => (supply * supply) / (power * 1000)
		}
	]
});

/** Ratings of plug and spur fuses that are kept in a van [A]. */
const fuses = [1, 2, 3, 5, 7, 10, 13] as const;
const fuseAbove = (amps: number): number => fuses.find((fuse) => fuse >= amps) ?? Infinity;
const fuseBelow = (amps: number): number => fuses.findLast((fuse) => fuse < amps) ?? NaN;

const fuseSize = defineSum({
	id: 'fuse-size',
	drill: 'electrical-sums',
	asks: 'Two loads share one fused spur. Of fuses of 1, 2, 3, 5, 7, 10 and 13 A, which is the smallest that carries both? (Where instructions name a fuse, theirs is fitted.)',
	asked: 'figure',
	units: ['A'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		one: { name: 'First load', unit: 'W', step: 10, exact: true },
		other: { name: 'Second load', unit: 'W', step: 10, exact: true },
		supply: mains
	},
	draw(chance) {
		const one = chance.between(300, 1600);
		return { one, other: one * chance.between(0.45, 0.98), supply: 230 };
	},
	solve: ({ one, other, supply }) => fuseAbove((one + other) / supply),
	worked: ({ one, other, supply }, answer) => [
		`${one} + ${other} = ${one + other} W together`,
		`${one + other} W / ${supply} V = ${step((one + other) / supply)} A`,
		`The next fuse above that: ${answer}`
	],
	misconceptions: [
		{
			says: 'That fuse is below the current of the two: it would blow in use.',
			gives: ({ one, other, supply }) => fuseBelow((one + other) / supply)
		},
		{
			says: 'Only the larger load was counted: the spur carries both.',
			gives: ({ one, supply }) => fuseAbove(one / supply)
		},
		{
			says: 'That fuse carries the loads but is larger than it need be: it protects the flexible cord less.',
			gives: ({ one, other, supply }) => fuseAbove(fuseAbove((one + other) / supply) + 0.5)
		}
	]
});

const elementResistance = defineSum({
	id: 'element-resistance',
	drill: 'electrical-sums',
	asks: 'You have isolated and disconnected an immersion heater. What resistance should a sound one show?',
	asked: 'figure',
	units: ['ohm'],
	pace: { quickSeconds: 45, slowSeconds: 180 },
	given: { power: { name: 'Heater', unit: 'kW', step: 0.01 }, supply: { ...mains, name: 'Made for' } },
	draw: (chance) => ({ power: chance.between(1, 3.2), supply: chance.pick([230, 240]) }),
	solve: ({ power, supply }) => (supply * supply) / (power * 1000),
	worked: ({ power, supply }, answer) => [
		`Current: ${step(power * 1000)} W / ${supply} V = ${step((power * 1000) / supply)} A`,
		`${supply} V / ${step((power * 1000) / supply)} A = ${answer}`
	],
	misconceptions: [
		{ says: 'That is the current: the resistance is volts over it.', gives: ({ power, supply }) => (power * 1000) / supply },
		{
			says: 'Volts were divided by watts: they are to be divided by the current.',
			gives: ({ power, supply }) => supply / (power * 1000)
		},
		{
			says: 'Kilowatts were taken for watts: the thousand is missing.',
			gives: ({ power, supply }) => (supply * supply) / power
		}
	]
});

/** Growth of a copper winding's resistance, for each kelvin above 20 degC [1/K]. */
const copper = Number((windingOhm(1, 21) - 1).toFixed(5));

const windingWarm = defineSum({
	id: 'winding-warm',
	drill: 'electrical-sums',
	asks: 'You isolate a pump that has just run and measure its winding, still hot. What would a sound one show?',
	asked: 'figure',
	units: ['ohm'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		at20: { name: 'Sound, at 20 degC', unit: 'ohm', step: 1 },
		temp: { name: 'Winding at', unit: 'degC', step: 1 },
		growth: { name: 'Copper, for each kelvin above 20 degC', unit: '', step: 0.00001, exact: true }
	},
	draw: (chance) => ({ at20: chance.between(120, 420), temp: chance.between(60, 110), growth: copper }),
	solve: ({ at20, temp, growth }) => at20 * (1 + growth * (temp - 20)),
	worked: ({ at20, temp, growth }, answer) => [
		`${temp} - 20 = ${temp - 20} K above 20 degC`,
		`1 + ${growth} x ${temp - 20} = ${step(1 + growth * (temp - 20))}`,
		`${at20} x ${step(1 + growth * (temp - 20))} = ${answer}`
	],
	misconceptions: [
		{
			says: 'Copper rises as it warms; only sensors of the falling kind go down.',
			gives: ({ at20, temp, growth }) => at20 * (1 - growth * (temp - 20))
		},
		{
			says: 'It was counted from 0 degC: the 20 degC at which it was measured are to be taken off.',
			gives: ({ at20, temp, growth }) => at20 * (1 + growth * temp)
		},
		{ says: 'It was taken by the ratio of the degrees Celsius.', gives: ({ at20, temp }) => (at20 * temp) / 20 }
	]
});

const parallelElements = defineSum({
	id: 'parallel-elements',
	drill: 'electrical-sums',
	asks: 'Two heating elements lie side by side on the same two terminals, isolated and off the supply. What does your meter show across them?',
	asked: 'one',
	units: ['ohm'],
	pace: { quickSeconds: 60, slowSeconds: 240 },
	given: {
		one: { name: 'First element', unit: 'ohm', step: 0.1 },
		other: { name: 'Second element', unit: 'ohm', step: 0.1 }
	},
	draw: (chance) => ({ one: chance.between(16, 40), other: chance.between(24, 60) }),
	solve: ({ one, other }) => parallelOhm(one, other),
	worked: ({ one, other }, answer) => [
		`Side by side, what adds is how well each conducts: 1 / ${one} + 1 / ${other} = ${step(1 / one + 1 / other)}`,
		`1 / ${step(1 / one + 1 / other)} = ${answer}`
	],
	misconceptions: [
		{ says: 'They were added, as though one came after the other.', gives: ({ one, other }) => one + other },
		{ says: 'That is the mean: two ways side by side let more through than either.', gives: ({ one, other }) => (one + other) / 2 },
		{ says: 'The last step is missing: turn the sum of the inverses over again.', gives: ({ one, other }) => 1 / one + 1 / other }
	]
});

export const loadSums = [loadCurrent, fuseSize, elementResistance, windingWarm, parallelElements];
