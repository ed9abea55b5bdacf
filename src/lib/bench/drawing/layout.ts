/** Where words go on a drawing. */
import type { Drawing, Place } from '#shared/scenario/schema.ts';

/** Baseline to baseline of a label, in the drawing's units. */
export const lineHeight = 13;
const columns = 6;
const rows = 10;

/** A name of two words or more, broken in two where that makes it narrow. */
export function labelLines(name: string): string[] {
	if (name.length <= 10 || !name.includes(' ')) return [name];
	const spaces = [...name.matchAll(/ /g)].map((m) => m.index);
	const middle = spaces.reduce((best, at) => (Math.abs(at - name.length / 2) < Math.abs(best - name.length / 2) ? at : best));
	return [name.slice(0, middle), name.slice(middle + 1)];
}

export interface Label {
	readonly lines: readonly string[];
	readonly x: number;
	/** Baseline of the first line. */
	readonly y: number;
	readonly anchor: 'start' | 'middle' | 'end';
	/** Middle of the tag that pins a reading here. */
	readonly tagY: number;
}

/** A label above its symbol grows upwards and pins its readings above itself; any other grows downwards. */
export function labelOf(place: Place): Label {
	const lines = labelLines(place.name);
	const [x, at] = place.label?.at ?? [place.at[0], place.at[1] + 26];
	const above = at < place.at[1] - 14;
	const y = above ? at - (lines.length - 1) * lineHeight : at;
	const tagY = above ? y - lineHeight - 5 : y + (lines.length - 1) * lineHeight + 12;
	return { lines, x, y, anchor: place.label?.anchor ?? 'middle', tagY };
}

/** Width of one figure in a tag, and what the demand mark and the margins take. */
const figureWidth = 6.35;
const markWidth = 22;

/** The box of a tag of so many characters at a place: pinned to its label, and kept on the sheet. */
export function tagBox(place: Place, characters: number, sheetWidth: number): { left: number; middle: number; width: number } {
	const label = labelOf(place);
	const width = characters * figureWidth + markWidth;
	const wanted = { middle: label.x - width / 2, end: label.x - width, start: label.x - 2 }[label.anchor];
	return { left: Math.min(Math.max(wanted, 2), sheetWidth - 2 - width), middle: label.tagY, width };
}

/** The square of the sheet that a place is in, as on any drawing with lettered edges: `C4`. */
export function square(drawing: Drawing, place: Place): string {
	const column = Math.min(columns - 1, Math.floor((place.at[0] / drawing.width) * columns));
	const row = Math.min(rows - 1, Math.floor((place.at[1] / drawing.height) * rows));
	return `${'ABCDEF'[column]}${row + 1}`;
}

/** The letters along the top edge and the numbers down the side, with the middle of each. */
export function edges(drawing: Drawing): { letter: string; x: number; y: number }[] {
	const across = Array.from({ length: columns }, (_, i) => ({ letter: 'ABCDEF'[i], x: ((i + 0.5) / columns) * drawing.width, y: -7 }));
	const down = Array.from({ length: rows }, (_, i) => ({ letter: `${i + 1}`, x: -9, y: ((i + 0.5) / rows) * drawing.height }));
	return [...across, ...down];
}
