/**
 * What a repair still costs from here, by the policy of trying remedies in falling order of probability over cost, with a proof after each.
 *
 * One fault present, remedies that work, and a test after each that tells: then that order is the cheapest, where each remedy cures its
 * own fault. Where one remedy cures several faults it is a good rule and no longer a theorem.
 * @see Kadane & Simon 1977; Heckerman, Breese & Rommelse 1995, Communications of the ACM 38(3) (from memory); held against every order
 *      in tests/published/troubleshooting.test.ts
 */

/** A remedy as the cost of trying it (work, price, proof) and the faults it cures, by index. */
export interface Repair {
	readonly cost: number;
	readonly cures: readonly number[];
}

/** Repairs laid out for quick use. */
export interface RepairBook {
	readonly repairs: readonly Repair[];
	/** Repairs that cure each fault. */
	readonly curedBy: readonly (readonly number[])[];
	/** Cost of giving up with the fault still there: what nothing in the book cures, and what is too unlikely to be worth its repair. */
	readonly givingUp: number;
	/** One over the cost of each repair. */
	readonly perCost: Float64Array;
}

/**
 * @param givingUp [currency]; dearer than any one repair, or a likely but dear repair is never tried. Without it every repair is tried in
 *                 turn, and a fault that none cures costs nothing more.
 */
export function repairBook(faults: number, repairs: readonly Repair[], givingUp = Infinity): RepairBook {
	const curedBy: number[][] = Array.from({ length: faults }, () => []);
	repairs.forEach((repair, index) => repair.cures.forEach((fault) => curedBy[fault].push(index)));
	return { repairs, curedBy, givingUp, perCost: Float64Array.from(repairs, ({ cost }) => 1 / cost) };
}

/**
 * The order in which repairs are tried, and its expected cost. Masses need not sum to 1: the cost scales with them.
 * @param mass probability of each fault, or any share of it
 * @returns cost of `sum_i C_i (mass not yet cured before i)` and the order as indices into the book
 */
export function repairPolicy(book: RepairBook, mass: ArrayLike<number>): { cost: number; order: number[] } {
	const order: number[] = [];
	const cost = run(book, mass, order);
	return { cost, order };
}

/** The expected cost alone. */
export const expectedRepairCost = (book: RepairBook, mass: ArrayLike<number>): number => run(book, mass, null);

/** Below this share of the mass there is nothing left worth repairing. */
const nothingLeft = 1e-9;

// Room to work in: thousands of beliefs are costed to choose one action.
let chance = new Float64Array(64);
let left = new Float64Array(64);
let open = new Int32Array(64);

function run(book: RepairBook, mass: ArrayLike<number>, order: number[] | null): number {
	const { repairs, curedBy } = book;
	if (chance.length < repairs.length) {
		chance = new Float64Array(repairs.length * 2);
		open = new Int32Array(repairs.length * 2);
	}
	if (left.length < mass.length) left = new Float64Array(mass.length * 2);
	chance.fill(0, 0, repairs.length);
	let remaining = 0;
	for (let fault = 0; fault < mass.length; fault++) {
		const m = mass[fault];
		left[fault] = m > 0 ? m : 0;
		if (!(m > 0)) continue;
		remaining += m;
		for (const repair of curedBy[fault]) chance[repair] += m;
	}
	const nothing = remaining * 1e-12;
	let count = 0;
	for (let i = 0; i < repairs.length; i++) if (chance[i] > nothing) open[count++] = i;
	const enough = remaining * nothingLeft;
	let cost = 0;
	// Giving up after any number of repairs is open; giving up at once is where the search for the cheapest place to stop begins.
	let least = remaining > 0 ? remaining * book.givingUp : 0;
	while (remaining > enough && cost < least) {
		let best = -1;
		let bestRatio = 0;
		for (let at = 0; at < count; at++) {
			const i = open[at];
			if (chance[i] <= nothing) {
				// Its faults were cured by others: out of the list, keeping the order, by which ties are settled.
				open.copyWithin(at, at + 1, count--);
				at--;
				continue;
			}
			const ratio = chance[i] * book.perCost[i];
			if (ratio > bestRatio) {
				best = i;
				bestRatio = ratio;
			}
		}
		if (best < 0) return Number.isFinite(book.givingUp) ? least : cost;
		cost += remaining * repairs[best].cost;
		order?.push(best);
		chance[best] = 0;
		for (const fault of repairs[best].cures) {
			const m = left[fault];
			if (m === 0) continue;
			left[fault] = 0;
			remaining -= m;
			for (const repair of curedBy[fault]) chance[repair] -= m;
		}
		if (remaining > enough) least = Math.min(least, cost + remaining * book.givingUp);
	}
	return Math.min(cost, least);
}

/**
 * Expected cost of taking a check and then repairing by the policy: its own cost, then the policy's over each outcome.
 * @param joint for each outcome, the probability of that outcome together with each fault
 */
export function costAfterCheck(book: RepairBook, checkCost: number, joint: readonly ArrayLike<number>[]): number {
	return joint.reduce((sum, mass) => sum + expectedRepairCost(book, mass), checkCost);
}

/** Entropy of a belief [bits]. Masses that do not sum to 1 are taken as shares. */
export function entropyBits(mass: ArrayLike<number>): number {
	let sum = 0;
	for (let i = 0; i < mass.length; i++) sum += mass[i];
	if (!(sum > 0)) return 0;
	let bits = 0;
	for (let i = 0; i < mass.length; i++) {
		const p = mass[i] / sum;
		if (p > 0) bits -= p * Math.log2(p);
	}
	return bits;
}
