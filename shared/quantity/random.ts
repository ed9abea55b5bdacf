/**
 * Chance: independent streams of numbers, each fixed by a seed and labels.
 *
 * Every result is made with whole-number operations and + - * / only, so the bits agree on every platform.
 */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import { hash32 } from './hash32.ts';

/** Seeds that are stored or typed are whole numbers from 0 to this: what any language's 32-bit integer holds. */
export const mostSeed = 2 ** 31 - 1;

/** One stream. Each call moves it on; two streams never share state. */
export interface Chance {
	/** From 0 up to and without 1. */
	uniform(): number;
	/** Even between two bounds, the upper left out unless they are equal. */
	between(from: number, to: number): number;
	/**
	 * Standard normal, cut at 3 either side: the sum of twelve even numbers less six, drawn again when beyond 3.
	 * Limit: the tails are a little thin (standard deviation 0.99, kurtosis near 2.8 against 3). No logarithm or cosine is needed.
	 */
	normal(): number;
	/**
	 * One of the items, evenly or by weight.
	 * @throws RangeError if there is no item, or weights are negative, not finite, or all 0
	 */
	pick<T>(items: readonly T[], weight?: (item: T) => number): T;
	/**
	 * A whole number, both bounds included.
	 * @throws RangeError if the bounds are not whole numbers in order
	 */
	whole(from: number, to: number): number;
}

/**
 * The stream that belongs to a seed and labels. Other labels, or the same in another order, give a stream unrelated to it;
 * the number 1 and the word '1' differ.
 * @param seed   any number; all of its bits count
 * @param labels what the stream is for, such as the callout, the check and the occasion
 */
export function chance(seed: number, ...labels: (string | number)[]): Chance {
	const key = [seed, ...labels].map((part) => (typeof part === 'number' ? `n${part}` : `s${part.length}:${part}`)).join('|');
	// Four hashes under unlike salts fill the 128 bits of state; the last has its lowest bit set, since a state of all noughts would stay so.
	const source = xoroshiro128plusFromState([
		hash32(key, 0x243f6a88),
		hash32(key, 0x85a308d3),
		hash32(key, 0x13198a2e),
		hash32(key, 0x03707344) | 1
	]);
	const uniform = (): number => uniformFloat64(source);

	return {
		uniform,
		between: (from, to) => from + (to - from) * uniform(),
		normal() {
			for (;;) {
				let sum = -6;
				for (let i = 0; i < 12; i++) sum += (source.next() >>> 0) / 0x1_0000_0000;
				if (sum >= -3 && sum <= 3) return sum;
			}
		},
		pick(items, weight) {
			if (items.length === 0) throw new RangeError('nothing to pick from');
			if (weight === undefined) return items[uniformInt(source, 0, items.length - 1)] as (typeof items)[number];
			return items[weightedIndex(items.map(weight), uniform())] as (typeof items)[number];
		},
		whole(from, to) {
			if (!Number.isSafeInteger(from) || !Number.isSafeInteger(to) || from > to) {
				throw new RangeError(`whole numbers in order are expected, not ${from} to ${to}`);
			}
			return uniformInt(source, from, to);
		}
	};
}

/** The place where a share (0 up to 1) of the summed weights falls; an item of weight 0 is never chosen. */
function weightedIndex(weights: readonly number[], share: number): number {
	let total = 0;
	for (const weight of weights) {
		if (!(weight >= 0) || !Number.isFinite(weight)) throw new RangeError(`a weight must be 0 or more and finite, not ${weight}`);
		total += weight;
	}
	if (!(total > 0)) throw new RangeError('every weight is 0');
	let rest = share * total;
	let last = 0;
	for (const [index, weight] of weights.entries()) {
		if (weight === 0) continue;
		if (rest < weight) return index;
		rest -= weight;
		last = index;
	}
	return last;
}
