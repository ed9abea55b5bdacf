/**
 * The four first stabilities, fitted to the log: how long a skill lasts after its first showing, by the grade of it. Our own small search,
 * because the public optimiser gives the defaults back unchanged for a few hundred reviews and fits all 21 parameters after that (measured).
 */
import { gradesOf } from '../memory/schedule.ts';
import { parameterBounds } from './bounds.ts';
import { totalSurprise, usableItems, type Trail } from './trail.ts';

/**
 * How far the logarithm of a first stability strays from what the learner falls back on before the log speaks: a factor of e either way, one
 * standard deviation. Ours; it keeps a dozen reviews from claiming much.
 */
const spread = 1;

/** Points of the first, coarse look, and steps of the fine one after it, which end within half a hundredth of the best. */
const looks = 16;
const refinements = 12;
const golden = (Math.sqrt(5) - 1) / 2;

/**
 * The likeliest four first stabilities given the log, a log-normal prior about the parameters given, and the rest of those as they are. A trail
 * depends on the one that its first grade chose, so that there are four searches along one line each; one of which the log says nothing keeps
 * its value. A better first grade never gets the shorter stability: where the log says so, the two are pooled by the reviews behind them.
 * @param parameters what is fallen back on: all of them, of which the first four are replaced
 * @returns all parameters
 */
export function fitFirstStabilities(trails: readonly Trail[], parameters: readonly number[]): number[] {
	const found = [0, 1, 2, 3].map((place) => {
		const own = trails.filter(({ steps: [first] }) => first && gradesOf([first.recall])[0] === place + 1);
		const weight = usableItems(own);
		const log = weight === 0 ? Math.log(parameters[place]!) : likeliest(own, parameters, place);
		return { log, weight: weight + 1 };
	});
	return [...inOrder(found).map(Math.exp), ...parameters.slice(found.length)];
}

function likeliest(trails: readonly Trail[], parameters: readonly number[], place: number): number {
	const cost = (log: number): number => {
		const tried = parameters.map((value, i) => (i === place ? Math.exp(log) : value));
		return totalSurprise(trails, tried) + (log - Math.log(parameters[place]!)) ** 2 / (2 * spread ** 2);
	};
	const [from, to] = parameterBounds[place]!.map(Math.log) as [number, number];
	const step = (to - from) / looks;
	// Coarse first, since the cost may have more than one hollow; then golden section within the best one.
	const coarse = Array.from({ length: looks + 1 }, (_, i) => from + i * step);
	const best = coarse.map(cost).reduce((lowest, value, i, all) => (value < all[lowest]! ? i : lowest), 0);
	let [low, high] = [Math.max(from, coarse[best]! - step), Math.min(to, coarse[best]! + step)];
	let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
	let [costLeft, costRight] = [cost(left), cost(right)];
	for (let i = 0; i < refinements; i++) {
		if (costLeft < costRight) {
			[high, right, costRight] = [right, left, costLeft];
			left = high - golden * (high - low);
			costLeft = cost(left);
		} else {
			[low, left, costLeft] = [left, right, costRight];
			right = low + golden * (high - low);
			costRight = cost(right);
		}
	}
	return (low + high) / 2;
}

/** Values that never fall from one to the next, by pooling neighbours that do, each by its weight. */
function inOrder(values: readonly { log: number; weight: number }[]): number[] {
	const pools: { log: number; weight: number; count: number }[] = [];
	for (const value of values) {
		pools.push({ ...value, count: 1 });
		while (pools.length > 1 && pools.at(-2)!.log > pools.at(-1)!.log) {
			const [a, b] = pools.splice(-2) as [(typeof pools)[0], (typeof pools)[0]];
			const weight = a.weight + b.weight;
			pools.push({ log: (a.log * a.weight + b.log * b.weight) / weight, weight, count: a.count + b.count });
		}
	}
	return pools.flatMap(({ log, count }) => Array<number>(count).fill(log));
}
