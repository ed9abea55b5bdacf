/**
 * Fitting the scheduler to the log. Nothing fitted is used because it was fitted: it is tried on later reviews that the fit has not seen,
 * and kept only where it foretells them better than what is in force, than what it falls back on, and than the learners' own averages.
 */
import { withinBounds } from './bounds.ts';
import { fitFirstStabilities } from './first-stabilities.ts';
import { before, heldOutFrom, lossOfAverages } from './held-out.ts';
import { foretell, lossOf, usableItems, type Trail } from './trail.ts';

/** What is fitted: nothing, the four first stabilities (w0 to w3), or all parameters. */
export type Extent = 'defaults' | 'first-stabilities' | 'all';

/**
 * From how many usable reviews on what is fitted. Below 8 the optimiser itself gives the defaults back (source: fsrs-rs). From 8 to 63 a fifth
 * held out would be one to twelve reviews, too few to show that a fit is better, so that the defaults hold there too. 64 is from fsrs-rs, below
 * which it never fits more than the first four; 512 from py-fsrs, below which it does not fit at all (source).
 */
export const fewest = { 'first-stabilities': 64, all: 512 } as const;

/** @param items usable reviews: those on a later day than the one before of the same skill */
export function extentFor(items: number): Extent {
	if (items >= fewest.all) return 'all';
	return items >= fewest['first-stabilities'] ? 'first-stabilities' : 'defaults';
}

/** Fits all parameters to trails. The outside gives it, where it has one. */
export type Optimiser = (trails: readonly Trail[]) => Promise<readonly number[]>;

export interface Standing {
	/** What holds where nothing is fitted: the defaults for everyone, everyone's for one learner. */
	readonly fallback: readonly number[];
	/** What schedules now. */
	readonly inForce: readonly number[];
}

export interface Fit {
	readonly items: number;
	/** Usable reviews held out. */
	readonly held: number;
	/** What was fitted; of two that were tried, the better on what was held out. */
	readonly extent: Exclude<Extent, 'defaults'>;
	/** All of them are to be fitted by now, and there is no optimiser, or it failed. */
	readonly lacks: string | null;
	/** Log loss on the held-out reviews: of what was in force, of the fit, of what it falls back on, and of the learners' own averages. */
	readonly before: number;
	readonly after: number;
	readonly fallback: number;
	readonly average: number;
	/** What is to schedule from now on: the fit, what was in force, or the fallback where that does better than what was in force. */
	readonly chosen: 'fit' | 'in-force' | 'fallback';
	/** What was fitted, chosen or not. */
	readonly parameters: readonly number[];
}

/**
 * Fits as much as the log can bear and says whether the outcome is to be used.
 * @param trails    of everyone of a cohort, or of one learner
 * @param optimiser null where none is installed: then no more than the first four are fitted
 * @returns null where the defaults hold because there are too few usable reviews
 */
export async function fitTo(trails: readonly Trail[], { fallback, inForce }: Standing, optimiser: Optimiser | null): Promise<Fit | null> {
	const items = usableItems(trails);
	const extent = extentFor(items);
	if (extent === 'defaults') return null;
	const from = heldOutFrom(trails);
	const seen = before(trails, from);
	const judge = (parameters: readonly number[]) => lossOf(foretell(trails, parameters).filter(({ at }) => at >= from));

	const first = { extent: 'first-stabilities' as const, parameters: withinBounds(fitFirstStabilities(seen, fallback)) };
	const { all, lacks } = extent === 'all' ? await fitAll(seen, optimiser) : { all: null, lacks: null };
	const tried = [first, ...(all ? [{ extent: 'all' as const, parameters: all }] : [])]
		.map((one) => ({ ...one, loss: judge(one.parameters) }))
		.reduce((best, one) => (one.loss < best.loss ? one : best));

	const losses = { before: judge(inForce), after: tried.loss, fallback: judge(fallback) };
	const foretold = foretell(trails, inForce);
	const average = lossOfAverages(foretold, from);
	return {
		items,
		held: foretold.filter(({ at }) => at >= from).length,
		extent: tried.extent,
		lacks,
		...losses,
		average,
		chosen: choose({ ...losses, average }),
		parameters: tried.parameters
	};
}

/** The fit must beat all three; failing that, what is in force stays unless the fallback beats it. */
export function choose({ before, after, fallback, average }: Pick<Fit, 'before' | 'after' | 'fallback' | 'average'>): Fit['chosen'] {
	if (after < before && after < fallback && after < average) return 'fit';
	return fallback < before ? 'fallback' : 'in-force';
}

/** An optimiser that fails, or gives what are no parameters, costs the fit of all parameters and nothing else. */
async function fitAll(trails: readonly Trail[], optimiser: Optimiser | null): Promise<{ all: number[] | null; lacks: string | null }> {
	if (!optimiser) return { all: null, lacks: 'the optimiser is not installed' };
	try {
		return { all: withinBounds(await optimiser(trails)), lacks: null };
	} catch (error) {
		return { all: null, lacks: `the optimiser failed: ${error instanceof Error ? error.message : String(error)}` };
	}
}
