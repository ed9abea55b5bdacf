/**
 * The paths that can be followed on a drawing one at a time: what the runs carry, and for water that serves two ends, which end is left
 * out. Nothing here knows a family; its drawing says what it has.
 */
import type { Drawing, Place, Run } from '#shared/scenario/schema.ts';
import { symbols } from '../symbols';

export const paths = ['primary', 'tap', 'heating', 'gas', 'air', 'electricity'] as const;
export type Path = (typeof paths)[number];

interface Rule {
	readonly name: string;
	readonly carries: readonly Run['carries'][];
	/** Not the runs that end at this symbol: the primary circuit leaves out the radiators, the heating circuit the plate exchanger. */
	readonly without?: string;
	/** Only for a drawing that has a run to this symbol. */
	readonly only?: string;
}

export const pathRules: Readonly<Record<Path, Rule>> = {
	// Where nothing but radiators takes heating water, the heating circuit is all there is of it.
	primary: { name: 'Primary', carries: ['flow', 'return'], without: 'radiator', only: 'plate-exchanger' },
	tap: { name: 'Tap water', carries: ['cold', 'hot'] },
	heating: { name: 'Heating', carries: ['flow', 'return'], without: 'plate-exchanger', only: 'radiator' },
	gas: { name: 'Gas', carries: ['gas'] },
	air: { name: 'Air and flue', carries: ['air', 'flue', 'condensate'] },
	electricity: { name: 'Electricity', carries: ['live', 'neutral', 'signal'] }
};

/** How far from a symbol a run may end and still belong to it, in the drawing's units. */
const reach = 6;
/** A run that goes on past a symbol belongs to it when it passes over this share of its half width and height. */
const middle = 0.4;

function endsAt(run: Run, place: Place): boolean {
	const [width, height] = symbols[place.symbol]?.hit ?? [0, 0];
	return [run.points[0], run.points.at(-1)].some(
		(end) => end && Math.abs(end[0] - place.at[0]) <= width / 2 + reach && Math.abs(end[1] - place.at[1]) <= height / 2 + reach
	);
}

function passesThrough(run: Run, place: Place): boolean {
	const [width, height] = symbols[place.symbol]?.hit ?? [0, 0];
	const [halfX, halfY] = [(width / 2) * middle, (height / 2) * middle];
	return run.points.slice(1).some(([toX, toY], i) => {
		const [fromX, fromY] = run.points[i] ?? [toX, toY];
		const over = (from: number, to: number, at: number, half: number) => Math.min(from, to) <= at + half && Math.max(from, to) >= at - half;
		return over(fromX, toX, place.at[0], halfX) && over(fromY, toY, place.at[1], halfY);
	});
}

function toSymbol(drawing: Drawing, run: Run, symbol: string): boolean {
	return drawing.places.some((place) => place.symbol === symbol && endsAt(run, place));
}

/** The paths that a run belongs to. */
export function pathsOfRun(drawing: Drawing, run: Run): Path[] {
	return paths.filter((path) => {
		const { carries, without } = pathRules[path];
		return carries.includes(run.carries) && !(without && toSymbol(drawing, run, without));
	});
}

/** The paths that go to or through a place. */
export function pathsOfPlace(drawing: Drawing, place: Place): Path[] {
	const here = drawing.runs.filter((run) => endsAt(run, place) || passesThrough(run, place));
	return paths.filter((path) => here.some((run) => pathsOfRun(drawing, run).includes(path)));
}

/** The paths that a drawing has, each with what its runs carry and the names of its places. */
export function pathsOn(drawing: Drawing): { path: Path; name: string; carries: Run['carries'][]; places: string[] }[] {
	return paths.flatMap((path) => {
		const { name, carries, only } = pathRules[path];
		const runs = drawing.runs.filter((run) => pathsOfRun(drawing, run).includes(path));
		if (runs.length === 0 || (only && !runs.some((run) => toSymbol(drawing, run, only)))) return [];
		const places = drawing.places.filter((place) => pathsOfPlace(drawing, place).includes(path)).map((place) => place.name);
		return [{ path, name, carries: carries.filter((kind) => runs.some((run) => run.carries === kind)), places }];
	});
}
