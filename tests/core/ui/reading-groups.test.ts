import { describe, expect, it } from 'vitest';
import type { ReadingLine } from '#shared/callout/view.ts';
import { readingGroups } from '$lib/bench/sheet/reading-rows.ts';
import { sheetOrderOf } from '$lib/ui/settings.ts';

const line = (event: number, name: string, area: string, noticed = false) => ({ event, name, area, noticed }) as ReadingLine;
const readings = [
	line(0, 'display', 'electrical', true),
	line(0, 'stream', 'water-supply', true),
	line(1, 'flow', 'water-supply'),
	line(2, 'volts', 'electrical')
];
const names = (order: 'time' | 'area') =>
	readingGroups(readings, order).map(({ name, rows }) => [name, rows.map((row) => row.readings.map((one) => one.name).join('+'))]);

describe('readings on the sheet', () => {
	it('by time: the newest first, what was noticed together in one row', () => {
		expect(names('time')).toEqual([[null, ['volts', 'flow', 'display+stream']]]);
	});

	it('by what they concern: each under its area, none lost and none twice', () => {
		expect(names('area')).toEqual([
			['Water supply and flow sensing', ['flow', 'stream']],
			['Control board, wiring and supply', ['volts', 'display']]
		]);
	});

	it('has no group where nothing was read', () => {
		expect(readingGroups([], 'time')).toEqual([]);
		expect(readingGroups([], 'area')).toEqual([]);
	});

	it('stands in the order asked for, else in the one remembered, else by time', () => {
		expect(sheetOrderOf('area', 'time')).toBe('area');
		expect(sheetOrderOf('sideways', 'area')).toBe('area');
		expect(sheetOrderOf(null, undefined)).toBe('time');
	});
});
