import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { drawing as schema, type Drawing, type Place } from '#shared/scenario/schema.ts';
import { labelBox, labelLines, square, type Box } from '$lib/bench/drawing/layout';
import { leftIn, longestTag, tagSpots, tagWidth } from '$lib/bench/drawing/readings/tags';
import { symbols } from '$lib/bench/drawing/symbols';
import { targetsOf } from '$lib/bench/drawing/places/targets';
import { tagParts, tagText } from '$lib/bench/reading-text';

/** Furthest that a tag may be from the name or the symbol of its place: less than the height of a tag. */
const furthest = 15;
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

	it('gives every name to a finger, and lays no target over that of another place', () => {
		const targets = targetsOf(drawing);
		const within = targets.filter(({ symbol, place }) => labelBox(place).top >= symbol.top && labelBox(place).bottom <= symbol.bottom);
		expect(targets.filter((one) => one.name === null && !within.includes(one)).map(({ place }) => place.id)).toEqual([]);
		const boxes = targets.flatMap(({ place, symbol, name }) => [symbol, ...(name ? [name] : [])].map((box) => ({ id: place.id, box })));
		const over = (a: Box, b: Box) =>
			Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.01 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.01;
		for (const [i, a] of boxes.entries()) {
			for (const b of boxes.slice(i + 1)) if (a.id !== b.id) expect(over(a.box, b.box), `${a.id} and ${b.id}`).toBe(false);
		}
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

	it('has a spot for the widest tag at every place at once, on the sheet, over no name and over no other spot', () => {
		const spots = tagSpots(drawing);
		expect([...spots.keys()].sort()).toEqual(drawing.places.map(({ id }) => id).sort());
		const overlap = (a: Box, b: Box) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
		const names = drawing.places.map((place) => ({ id: `the name ${place.id}`, ...labelBox(place) }));
		const tags = [...spots].map(([id, spot]) => ({ id: `the tag ${id}`, ...spot }));
		const hits = tags.flatMap((tag, i) =>
			[...names, ...tags.slice(i + 1)].filter((other) => overlap(tag, other)).map((other) => `${tag.id} on ${other.id}`)
		);
		expect(hits).toEqual([]);
		for (const { id, left, right, top, bottom } of tags) {
			expect(left >= 0 && top >= 0 && right <= drawing.width && bottom <= drawing.height, id).toBe(true);
		}
	});

	it('keeps each tag in its spot whatever its width, and close to the name or the symbol that it belongs to', () => {
		const gap = (a: Box, b: Box) => Math.max(0, a.left - b.right, b.left - a.right) + Math.max(0, a.top - b.bottom, b.top - a.bottom);
		for (const [id, spot] of tagSpots(drawing)) {
			const place = drawing.places.find((one) => one.id === id)!;
			const [[x, y], [width, height]] = [place.at, symbols[place.symbol].hit];
			const symbol = { left: x - width / 2, top: y - height / 2, right: x + width / 2, bottom: y + height / 2 };
			for (let characters = 1; characters <= longestTag; characters++) {
				for (const count of [1, 2]) {
					const wide = tagWidth(characters, count);
					const left = leftIn(spot, wide);
					expect(left >= spot.left - 1e-9 && left + wide <= spot.right + 1e-9, id).toBe(true);
					const tag = { left, right: left + wide, top: spot.top, bottom: spot.bottom };
					const away = Math.min(gap(tag, labelBox(place)), gap(tag, symbol));
					expect(away, `${id} of ${characters} characters`).toBeLessThanOrEqual(furthest);
				}
			}
		}
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

it('keeps the unit of a reading on its tag, in small letters, where both have room', () => {
	expect(tagParts({ text: '13.7', unit: 'l/min' }, longestTag)).toMatchObject({ text: '13.7', unit: 'l/min' });
	expect(tagParts({ text: '46.2', unit: 'degC' }, longestTag)).toMatchObject({ text: '46.2', unit: '°C' });
	const wide = tagParts({ text: '12.34', unit: 'kilopascal' }, longestTag);
	expect(wide).toMatchObject({ text: '12.34', unit: '' });
	expect(wide.letters).toBeLessThanOrEqual(longestTag);
});
