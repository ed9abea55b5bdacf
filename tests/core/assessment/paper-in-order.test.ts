/** What a blueprint asks for, place by place, and what it refuses. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blueprint, mostSlots, slotsOf, type BlueprintLine } from '#shared/assessment/blueprint.ts';
import { drillKinds } from '#shared/scenario/curriculum.ts';

const calloutLine = fc.record({
	kind: fc.constant('callout' as const),
	family: fc.constantFrom('one', 'two'),
	area: fc.constantFrom('gas' as const, 'air' as const, null),
	count: fc.integer({ min: 1, max: 4 })
});
const drillLine = fc.record({
	kind: fc.constant('drill' as const),
	drill: fc.constantFrom(...drillKinds),
	count: fc.integer({ min: 1, max: 4 })
});
const lines = fc.array<BlueprintLine>(fc.oneof(calloutLine, drillLine), { minLength: 1, maxLength: 10 });

describe('places of a paper', () => {
	it('are numbered in order, as many as the lines say, callouts before drills', () => {
		fc.assert(
			fc.property(lines, (lines) => {
				const slots = slotsOf({ lines });
				expect(slots.map(({ slot }) => slot)).toEqual(slots.map((_, index) => index));
				expect(slots).toHaveLength(lines.reduce((sum, { count }) => sum + count, 0));
				const kinds = slots.map(({ kind }) => kind);
				expect(kinds).toEqual(kinds.toSorted());
			})
		);
	});

	it('ask for what their line does, in the order of the lines', () => {
		const slots = slotsOf({
			lines: [
				{ kind: 'drill', drill: 'gas-sums', count: 1 },
				{ kind: 'callout', family: 'one', area: 'gas', count: 2 },
				{ kind: 'callout', family: 'two', area: null, count: 1 }
			]
		});
		expect(slots).toEqual([
			{ slot: 0, kind: 'callout', family: 'one', area: 'gas' },
			{ slot: 1, kind: 'callout', family: 'one', area: 'gas' },
			{ slot: 2, kind: 'callout', family: 'two', area: null },
			{ slot: 3, kind: 'drill', drill: 'gas-sums' }
		]);
	});
});

describe('a blueprint', () => {
	const drills = (count: number) => ({ kind: 'drill', drill: 'reading', count });

	it('has at most so many places', () => {
		expect(blueprint.safeParse({ lines: [drills(20), drills(20)] }).success).toBe(true);
		expect(mostSlots).toBe(40);
		expect(blueprint.safeParse({ lines: [drills(20), drills(20), drills(1)] }).success).toBe(false);
	});

	it.each([
		['no line', { lines: [] }],
		['a line of none', { lines: [drills(0)] }],
		['a part of a drill', { lines: [drills(1.5)] }],
		['an area that there is not', { lines: [{ kind: 'callout', family: 'one', area: 'garden', count: 1 }] }],
		['a kind of drill that there is not', { lines: [{ kind: 'drill', drill: 'chess', count: 1 }] }],
		['a key that it does not know', { lines: [{ ...drills(1), family: 'one' }] }]
	])('refuses %s', (_, given) => {
		expect(blueprint.safeParse(given).success).toBe(false);
	});
});
