import { sums } from '#shared/review/drills/sums/index.ts';

/** The answer of a drill's sum to given figures, in its first unit. */
export function solved(id: string, given: Readonly<Record<string, number>>): number {
	const sum = sums.find((one) => one.id === id);
	if (sum === undefined) throw new RangeError(`no sum is called ${id}`);
	const missing = Object.keys(sum.given).filter((key) => !(key in given));
	if (missing.length > 0) throw new RangeError(`${id} needs ${missing.join(', ')} as well`);
	return sum.solve(given);
}
