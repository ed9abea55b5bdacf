/** Reads the end of a run from rest: means over its last minute, and what the whole of it showed. */

/** The part at the end of a run that is averaged, and the part whose least values are kept [s]. */
const WINDOW_S = 60;
const LATE_S = 120;

/** What every family's run shows at a moment. */
export interface Seen {
	readonly seconds: number;
	readonly burning: boolean;
	readonly board: { readonly gas: boolean; readonly spark: boolean; readonly starts: number; readonly lockout: string };
	/** Heat held in the appliance above 0 degC [kJ]. */
	readonly plant: { heldKj(): number };
}

export type Picks<Moment> = Readonly<Record<string, (m: Moment) => number>>;

/** What a family wants read of its run, by the way in which it is read. */
export interface Groups<Moment> {
	/** Averaged over the window by trapezia: they move within a tick. */
	readonly moving: Picks<Moment>;
	/** Averaged over the window as they are: they hold for a tick. */
	readonly held: Picks<Moment>;
	/** Averaged over the part of the window in which the burner was lit; 0 where it was not. */
	readonly whileLit: Picks<Moment>;
	/** Averaged over the whole run, as they are. */
	readonly throughout: Picks<Moment>;
	/** Greatest of the run; 0 at least. */
	readonly most: Picks<Moment>;
	/** Least of the last two minutes. */
	readonly leastLate: Picks<Moment>;
	/** At the very end. */
	readonly last: Picks<Moment>;
}

export type ReadBy<Wanted> = { readonly [Way in keyof Wanted]: { [name in keyof Wanted[Way]]: number } };

/** What the whole run showed, whatever the family. */
export interface Whole {
	/** Whether the board ever drove the gas valve. */
	gasDriven: boolean;
	sparks: number;
	/** Times that a flame stood, proved or not. */
	lightings: number;
	/** Times that the burner lit and was proved. */
	starts: number;
	lockout: string;
	/** Heat going into water and metal over the window [kW]. */
	storedKw: number;
}

/** Values of a group, gathered moment by moment. */
function gather<Moment>(group: Picks<Moment>, start: number, take: (kept: number, value: number, share: number) => number) {
	const names = Object.keys(group);
	const picks = Object.values(group);
	const { length } = picks;
	// The shares added up stand last: a number that a closure changes would be a new object each time.
	const kept = new Float64Array(length + 1).fill(start, 0, length);
	return {
		add(m: Moment, share: number): void {
			for (let i = 0; i < length; i += 1) kept[i] = take(kept[i], picks[i](m), share);
			kept[length] += share;
		},
		values: (): Record<string, number> => Object.fromEntries(names.map((name, i) => [name, kept[i]])),
		means: (): Record<string, number> => Object.fromEntries(names.map((name, i) => [name, kept[length] > 0 ? kept[i] / kept[length] : 0]))
	};
}

const sum = (kept: number, value: number, share: number): number => kept + share * value;
const greatest = (kept: number, value: number): number => (value > kept ? value : kept);
const least = (kept: number, value: number): number => (value < kept ? value : kept);
const newest = (_: number, value: number): number => value;

/**
 * @param runS length of the run [s], a multiple of the board's look
 * @param run  runs the machine, showing it at the start and after every half second
 */
export function readRun<Moment extends Seen, Wanted extends Groups<Moment>>(
	wanted: Wanted,
	runS: number,
	run: (observe: (m: Moment) => void) => void
): { readonly read: ReadBy<Wanted>; readonly whole: Whole } {
	const from = Math.max(0, runS - WINDOW_S);
	const moving = gather(wanted.moving, 0, sum);
	const held = gather(wanted.held, 0, sum);
	const whileLit = gather(wanted.whileLit, 0, sum);
	const throughout = gather(wanted.throughout, 0, sum);
	const most = gather(wanted.most, 0, greatest);
	const leastLate = gather(wanted.leastLate, Infinity, least);
	const last = gather(wanted.last, 0, newest);
	const whole: Whole = { gasDriven: false, sparks: 0, lightings: 0, starts: 0, lockout: 'none', storedKw: 0 };
	let heldFromKj = 0;
	let sparking = false;
	let burning = false;

	run((m) => {
		if (m.seconds === from) {
			heldFromKj = m.plant.heldKj();
			moving.add(m, 0.5);
		}
		if (m.seconds === 0) return;
		throughout.add(m, 1);
		most.add(m, 1);
		if (m.seconds > runS - LATE_S) leastLate.add(m, 1);
		if (m.board.gas) whole.gasDriven = true;
		if (m.board.spark && !sparking) whole.sparks += 1;
		sparking = m.board.spark;
		if (m.burning && !burning) whole.lightings += 1;
		burning = m.burning;
		if (m.seconds <= from) return;

		moving.add(m, m.seconds < runS ? 1 : 0.5);
		held.add(m, 1);
		if (m.burning) whileLit.add(m, 1);
		if (m.seconds < runS) return;
		last.add(m, 1);
		whole.starts = m.board.starts;
		whole.lockout = m.board.lockout;
		whole.storedKw = (m.plant.heldKj() - heldFromKj) / (runS - from);
	});

	const read = {
		moving: moving.means(),
		held: held.means(),
		whileLit: whileLit.means(),
		throughout: throughout.means(),
		most: most.values(),
		leastLate: leastLate.values(),
		last: last.values()
	};
	return { read: read as ReadBy<Wanted>, whole };
}
