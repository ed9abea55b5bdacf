/** Values options by the repair policy after each outcome, and the few best of them one check deeper. */
import { costAfterCheck, expectedRepairCost } from './expected-cost.ts';
import type { RepairBook } from './expected-cost.ts';

/** An action with its cost and what could come of it. `Place` is whatever the cost of the next check depends on. */
export interface Option<Place> {
	/** [currency]; for a remedy with its proof, for a check all that it takes. */
	readonly cost: number;
	/** Mass of each fault together with each outcome; for a remedy one outcome, the faults it leaves. */
	readonly joint: readonly Float64Array[];
	readonly after: Place;
	/** For a check: what it would cost from another place, null where it cannot be taken. Left out for remedies. */
	readonly again?: (from: Place) => number | null;
}

export interface Depth<O> {
	/** How many of the best checks and remedies are looked behind. */
	readonly checks: number;
	readonly remedies: number;
	/** Others to be looked behind wherever they rank. */
	readonly also: (option: O) => boolean;
}

export interface Looked<O> {
	readonly option: O;
	readonly expected: number;
}

/** A second check as it is seen from before the first: each outcome's chance within each fault. */
interface Second<Place> {
	readonly option: Option<Place>;
	readonly given: readonly Float64Array[];
}

/** Outcomes of less than this chance are not looked behind. */
const seldom = 0.01;

/**
 * Expected cost to the end of each option. Checks are taken as independent within a fault.
 * @param mass of each fault, before any of the options
 * @returns in no order
 */
export function lookAhead<Place, O extends Option<Place>>(
	book: RepairBook,
	mass: Float64Array,
	options: readonly O[],
	depth: Depth<O>
): Looked<O>[] {
	const looked = options.map((option) => ({ option, expected: costAfterCheck(book, option.cost, option.joint) }));
	looked.sort((a, b) => a.expected - b.expected);
	const checks = looked.filter(({ option }) => option.again).slice(0, depth.checks);
	const remedies = looked.filter(({ option }) => !option.again).slice(0, depth.remedies);
	const seconds = checks.map(({ option }) => ({
		option,
		given: option.joint.map((joint) => joint.map((m, fault) => (mass[fault] > 0 ? m / mass[fault] : 0)))
	}));
	return looked.map((one) => {
		if (!checks.includes(one) && !remedies.includes(one) && !depth.also(one.option)) return one;
		return { option: one.option, expected: behind(book, one.option, seconds) };
	});
}

function behind<Place>(book: RepairBook, option: Option<Place>, checks: readonly Second<Place>[]): number {
	const seconds = checks.flatMap(({ option: check, given }) => {
		const cost = check.joint === option.joint ? null : check.again!(option.after);
		return cost === null ? [] : [{ cost, given }];
	});
	return option.joint.reduce((sum, mass) => sum + withOneMore(book, mass, seconds), option.cost);
}

/** The cheaper of repairing now and taking the best one more check first. */
function withOneMore(book: RepairBook, mass: Float64Array, seconds: readonly { cost: number; given: readonly Float64Array[] }[]): number {
	const now = expectedRepairCost(book, mass);
	const total = mass.reduce((sum, m) => sum + m, 0);
	if (total < seldom) return now;
	const outcome = new Float64Array(mass.length);
	let least = now;
	for (const { cost, given } of seconds) {
		let sum = cost * total;
		for (const chance of given) {
			if (sum >= least) break;
			for (let fault = 0; fault < mass.length; fault++) outcome[fault] = mass[fault] * chance[fault];
			sum += expectedRepairCost(book, outcome);
		}
		if (sum < least) least = sum;
	}
	return least;
}
