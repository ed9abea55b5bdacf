/**
 * Where readings are pinned: a spot for every place of a drawing at once, found so that no tag lies over a name or over another tag
 * whichever readings are taken. A spot is kept for the widest tag, so that nothing shifts as readings come.
 */
import type { Drawing, Place } from '#shared/scenario/schema.ts';
import { labelBox, type Box } from '../layout';
import { symbols } from '../symbols';

/** Most characters of a reading on a tag. */
export const longestTag = 9;
export const tagHeight = 16;
/** Width of one figure, and what the demand mark, the count of readings and the margins take. */
const figure = { width: 6.35, mark: 20, count: 13, margin: 3 };

/** Width of a tag. @param count  how many readings were taken at its place; a single one is not counted */
export function tagWidth(characters: number, count: number): number {
	return figure.mark + characters * figure.width + figure.margin + (count > 1 ? figure.count : 0);
}

export interface Spot extends Box {
	/** Which edge of a tag is held, and where it would best be. */
	readonly keeps: 'left' | 'middle' | 'right';
	readonly by: number;
}

/** The left edge of a tag of this width: as near to its name as its spot allows. */
export function leftIn({ left, right, keeps, by }: Spot, width: number): number {
	const wanted = { left: by, middle: by - width / 2, right: by - width }[keeps];
	return Math.min(Math.max(wanted, left), right - width);
}

const overlap = (a: Box, b: Box, gap = 0) =>
	Math.max(0, Math.min(a.right, b.right) - Math.max(a.left, b.left) + gap) *
	Math.max(0, Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) + gap);

/** What a symbol covers: somewhat less than a pointer may hit. */
function symbolBox({ at: [x, y], symbol }: Place): Box {
	const [width, height] = symbols[symbol]?.hit ?? [0, 0];
	return { left: x - width * 0.4, top: y - height * 0.4, right: x + width * 0.4, bottom: y + height * 0.4 };
}

/** Whether a place bears its name within its symbol; its tags may lie there too. */
function namedWithin(place: Place): boolean {
	const [label, symbol] = [labelBox(place), symbolBox(place)];
	return label.top >= symbol.top && label.bottom <= symbol.bottom;
}

const shifts = [0, -6, 6, -12, 12, -20, 20, -30, 30, -42, 42];

/** The spots to be tried for a place, the likeliest first: under or over its name, then round its symbol. */
function candidates(place: Place, width: number): Spot[] {
	const label = labelBox(place);
	const symbol = symbolBox(place);
	const keeps = ({ start: 'left', middle: 'middle', end: 'right' } as const)[place.label?.anchor ?? 'middle'];
	const above = label.bottom < place.at[1];
	const nameAt = { left: label.left - 2, middle: (label.left + label.right) / 2, right: label.right + 2 }[keeps];
	const at = (left: number, top: number, keep: Spot['keeps'], by: number): Spot => ({
		left,
		top,
		right: left + width,
		bottom: top + tagHeight,
		keeps: keep,
		by
	});
	const toRight = (edge: number, top: number) => at(edge + 2, top, 'left', edge + 2);
	const toLeft = (edge: number, top: number) => at(edge - 2 - width, top, 'right', edge - 2);
	const along = { left: nameAt, middle: nameAt - width / 2, right: nameAt - width }[keeps];
	const over = label.top - tagHeight - 1;
	const under = label.bottom + 1;
	const rows = above ? [over, symbol.bottom + 1, under] : [under, over, symbol.top - tagHeight - 1, symbol.bottom + 1];
	const beside = [label.top - 2, label.bottom - tagHeight + 2, place.at[1] - tagHeight / 2];
	return [
		...rows.flatMap((top) => shifts.map((by) => at(along + by, top, keeps, nameAt))),
		...beside.flatMap((top) => [
			toRight(Math.max(symbol.right, label.right), top),
			toLeft(Math.min(symbol.left, label.left), top),
			toRight(symbol.right, top),
			toLeft(symbol.left, top)
		])
	];
}

/** The spot for each place, by its id: those with least choice are given theirs first. */
export function tagSpots(drawing: Drawing): ReadonlyMap<string, Spot> {
	const width = tagWidth(longestTag, 2);
	const labels = drawing.places.map(labelBox);
	const covered = (own: Place, spot: Spot) =>
		drawing.places.filter((place) => place !== own || !namedWithin(own)).reduce((sum, place) => sum + overlap(spot, symbolBox(place)), 0);
	const onSheet = ({ left, top, right, bottom }: Box) =>
		left >= 2 && top >= 2 && right <= drawing.width - 2 && bottom <= drawing.height - 2;
	const choices = drawing.places.map((place) =>
		candidates(place, width)
			.filter((spot) => onSheet(spot) && labels.every((label) => overlap(spot, label) === 0))
			.map((spot, order) => ({ spot, cost: order * 4 + covered(place, spot) }))
			.sort((a, b) => a.cost - b.cost)
	);
	const spots = new Map<string, Spot>();
	const order = drawing.places.map((place, i) => ({ place, choice: choices[i] ?? [] })).sort((a, b) => a.choice.length - b.choice.length);
	for (const { place, choice } of order) {
		const free = choice.find(({ spot }) => [...spots.values()].every((other) => overlap(spot, other, 0.5) === 0)) ?? choice[0];
		if (free) spots.set(place.id, free.spot);
	}
	return spots;
}
