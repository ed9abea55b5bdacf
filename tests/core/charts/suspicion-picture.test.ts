import { describe, expect, it } from 'vitest';
import type { PathStep } from '#shared/marking/mark-sheet.ts';
import { readingRows } from '$lib/bench/sheet/reading-rows';
import { stepShape } from '$lib/charts/step-area';
import { leading, suspectsOf } from '../../../src/routes/callout/[id]/debrief/suspects';

const step = (minute: number, suspicion: Record<string, number>): PathStep => ({
	event: minute,
	says: '',
	minute,
	minutes: 1,
	spent: 0,
	regret: null,
	stopped: false,
	best: null,
	suspicion,
	entropyBits: 1
});

describe('a step line', () => {
	it('holds each value until the next and reaches the end of the clock', () => {
		const { line, area } = stepShape([0, 5], [1, 0.5], 10, 100, 20);
		expect(line).toBe('M0,0H50V10H100');
		expect(area).toBe('M0,0H50V10H100V20H0Z');
	});
	it('is nothing for a path of nothing', () => {
		expect(stepShape([], [], 10, 100, 20).line).toBe('');
	});
});

describe('suspects', () => {
	const path = [step(0, { a: 0.5, b: 0.4, c: 0.03 }), step(1, { a: 0.1, b: 0.86, c: 0.03 })];
	it('shows the fault itself first and leaves out what was never much suspected', () => {
		expect(suspectsOf(path, 'a', (id) => id.toUpperCase()).map(({ says }) => says)).toEqual(['A', 'B']);
	});
	it('shows the fault itself even when nothing pointed at it', () => {
		expect(suspectsOf(path, 'd', (id) => id)[0]).toEqual({ id: 'd', says: 'd', values: [0, 0] });
	});
	it('names the likeliest three in words', () => {
		expect(leading(path[1], (id) => id)).toBe('b 86 %; a 10 %; c 3 %');
	});
});

it('keeps what was noticed at one moment in one row, the newest row first', () => {
	const reading = (event: number, noticed: boolean, name: string) => ({ event, noticed, name }) as never;
	const rows = readingRows([reading(0, true, 'a'), reading(0, true, 'b'), reading(1, false, 'c'), reading(2, true, 'd')]);
	expect(rows.map((row) => row.readings.map(({ name }) => name))).toEqual([['d'], ['c'], ['a', 'b']]);
});
