/** Reviews that the fit never sees, and is judged by: the latest, since it is the future that a schedule is for. */
import { isUsable, lossOf, type Foretold, type Trail } from './trail.ts';

/** One in so many of the usable reviews is held out. */
const oneIn = 5;

/**
 * The moment from which on reviews are held out: the last fifth of the usable ones, and with them any other of the same moment.
 * @returns [ms since 1970]
 * @throws RangeError for fewer than five usable reviews
 */
export function heldOutFrom(trails: readonly Trail[]): number {
	const moments = trails.flatMap(({ steps }) => steps.filter(isUsable).map(({ at }) => at)).sort((a, b) => a - b);
	const held = Math.floor(moments.length / oneIn);
	if (held === 0) throw new RangeError(`five usable reviews or more are expected, not ${moments.length}`);
	return moments[moments.length - held]!;
}

/** The same trails as they stood just before a moment. */
export function before(trails: readonly Trail[], moment: number): Trail[] {
	return trails.map((trail) => ({ ...trail, steps: trail.steps.filter(({ at }) => at < moment) })).filter(({ steps }) => steps.length > 0);
}

/**
 * The bar that any predictor has to take: each learner's own average before a moment, foretold for every review after it.
 *
 * Average: (successes + 1) / (reviews + 2), Laplace's rule, so that a learner who never failed is not taken to be infallible.
 * @returns log loss of those averages over the reviews from the moment on
 */
export function lossOfAverages(foretold: readonly Foretold[], moment: number): number {
	const seen = new Map<string, { kept: number; all: number }>();
	for (const { learner, at, kept } of foretold) {
		const count = seen.get(learner) ?? { kept: 0, all: 0 };
		if (at < moment) seen.set(learner, { kept: count.kept + Number(kept), all: count.all + 1 });
	}
	const everyone = [...seen.values()].reduce((sum, one) => ({ kept: sum.kept + one.kept, all: sum.all + one.all }), { kept: 0, all: 0 });
	const held = foretold.filter(({ at }) => at >= moment);
	return lossOf(
		held.map((one) => {
			// A learner who is new since then has no average yet; everyone's is the fairest guess.
			const { kept, all } = seen.get(one.learner) ?? everyone;
			return { ...one, predicted: (kept + 1) / (all + 2) };
		})
	);
}
