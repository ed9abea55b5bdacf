import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { drawing as schema, type Drawing, type Place } from '#shared/scenario/schema.ts';
import { labelLines, square, tagBox } from '$lib/bench/drawing/layout';
import { symbols } from '$lib/bench/drawing/symbols';
import { tagText } from '$lib/bench/reading-text';

const folder = 'scenarios/drawings';
const drawings = readdirSync(folder).map((file): [string, Drawing] => [
	file,
	schema.parse(parse(readFileSync(`${folder}/${file}`, 'utf8')))
]);

describe.each(drawings)('%s', (_, drawing) => {
	it('draws every place once, with a symbol of the kit', () => {
		const ids = drawing.places.map(({ id }) => id);
		expect(new Set(ids).size).toBe(ids.length);
		expect(drawing.places.filter(({ symbol }) => !(symbol in symbols)).map(({ symbol }) => symbol)).toEqual([]);
	});

	it('runs pipes and wires square to the sheet, and on it', () => {
		for (const { carries, points } of drawing.runs) {
			points.slice(1).forEach(([x, y], i) => {
				const [fromX, fromY] = points[i];
				expect(x === fromX || y === fromY, `${carries} from ${points[i]} to ${x},${y}`).toBe(true);
			});
			for (const [x, y] of points) {
				expect(x >= 0 && x <= drawing.width && y >= 0 && y <= drawing.height, `${carries} at ${x},${y}`).toBe(true);
			}
		}
	});

	it('keeps what is inside in the casing and the rest out of it', () => {
		const [[left, top], [right, bottom]] = [drawing.casing.from, drawing.casing.to];
		for (const { id, at, inside } of drawing.places) {
			expect(at[0] > left && at[0] < right && at[1] > top && at[1] < bottom, id).toBe(inside);
		}
	});

	it('ends every run at a place, at another run, or at the board', () => {
		const reach = 20;
		const near = ([x, y]: readonly [number, number], { at, symbol }: Place) => {
			const [w, h] = symbols[symbol].hit;
			return Math.abs(x - at[0]) <= w / 2 + reach / 2 && Math.abs(y - at[1]) <= h / 2 + reach / 2;
		};
		const onRun = ([x, y]: readonly [number, number], own: Drawing['runs'][number]) =>
			drawing.runs.some(
				({ points }) =>
					points !== own.points &&
					points.slice(1).some(([bx, by], i) => {
						const [ax, ay] = points[i];
						const within = (n: number, a: number, b: number) => n >= Math.min(a, b) && n <= Math.max(a, b);
						return within(x, ax, bx) && within(y, ay, by);
					})
			);
		for (const run of drawing.runs) {
			for (const end of [run.points[0], run.points.at(-1)!]) {
				const meets = drawing.places.some((place) => near(end, place)) || onRun(end, run);
				expect(meets, `${run.carries} ends at ${end}`).toBe(true);
			}
		}
	});

	it('has room for a reading of seven characters at every place at once', () => {
		const height = 16;
		const tags = drawing.places.map((place) => ({ id: place.id, ...tagBox(place, '46.2 °C'.length, drawing.width) }));
		const overlaps = tags.flatMap((a, i) =>
			tags
				.slice(i + 1)
				.filter((b) => a.left < b.left + b.width && b.left < a.left + a.width && Math.abs(a.middle - b.middle) < height)
				.map((b) => `${a.id} and ${b.id}`)
		);
		expect(overlaps).toEqual([]);
	});
});

it('breaks a long name at the space nearest its middle and leaves a short one whole', () => {
	expect(labelLines('Hot-water dial')).toEqual(['Hot-water', 'dial']);
	expect(labelLines('Flue test point')).toEqual(['Flue test', 'point']);
	expect(labelLines('Gas valve')).toEqual(['Gas valve']);
	expect(labelLines('Unbreakable')).toEqual(['Unbreakable']);
});

it('names the square of the sheet that a place is in', () => {
	const sheet = { width: 600, height: 1000 } as Drawing;
	expect(square(sheet, { at: [0, 0] } as unknown as Place)).toBe('A1');
	expect(square(sheet, { at: [250, 450] } as unknown as Place)).toBe('C5');
	expect(square(sheet, { at: [600, 1000] } as unknown as Place)).toBe('F10');
});

it('shortens a tag by its unit first and by its words last', () => {
	expect(tagText({ text: '46.2', unit: 'degC' })).toBe('46.2 °C');
	expect(tagText({ text: '12.34', unit: 'kilopascal' })).toBe('12.34');
	expect(tagText({ text: 'winds down slowly', unit: '' })).toBe('winds do…');
});
