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
}

/** A label above its symbol grows upwards, any other downwards. */
export function labelOf(place: Place): Label {
	const lines = labelLines(place.name);
	const [x, at] = place.label?.at ?? [place.at[0], place.at[1] + 26];
	const above = at < place.at[1] - 14;
	const y = above ? at - (lines.length - 1) * lineHeight : at;
	return { lines, x, y, anchor: place.label?.anchor ?? 'middle' };
}

/** A rectangle on the sheet. */
export interface Box {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

/** Width of a letter of a name and what broad letters add, and how far a name rises above its baseline and falls below. */
const letter = { width: 6.5, broad: 6, rises: 10, falls: 3 };

/** The box that a place's name takes. */
export function labelBox(place: Place): Box {
	const { lines, x, y, anchor } = labelOf(place);
	const width = Math.max(...lines.map((line) => line.length)) * letter.width + letter.broad;
	const left = { start: x, middle: x - width / 2, end: x - width }[anchor];
	return { left, top: y - letter.rises, right: left + width, bottom: y + (lines.length - 1) * lineHeight + letter.falls };
}

/** The square of the sheet that a place is in, as on any drawing with lettered edges: `C4`. */
export function square(drawing: Drawing, place: Place): string {
	const column = Math.min(columns - 1, Math.floor((place.at[0] / drawing.width) * columns));
	const row = Math.min(rows - 1, Math.floor((place.at[1] / drawing.height) * rows));
	return `${'ABCDEF'[column]}${row + 1}`;
}

/** What is shown of the sheet: all of it, with room for the letters and numbers of its edges. */
export const sheetBox = ({ width, height }: Drawing) => ({ left: -18, top: -14, width: width + 22, height: height + 18 });

/** The letters along the top edge and the numbers down the side, with the middle of each. */
export function edges(drawing: Drawing): { letter: string; x: number; y: number }[] {
	const across = Array.from({ length: columns }, (_, i) => ({ letter: 'ABCDEF'[i], x: ((i + 0.5) / columns) * drawing.width, y: -7 }));
	const down = Array.from({ length: rows }, (_, i) => ({ letter: `${i + 1}`, x: -9, y: ((i + 0.5) / rows) * drawing.height }));
	return [...across, ...down];
}
