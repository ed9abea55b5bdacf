/** The pass rule: a mark to reach, and gates that no mark makes up for. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outcomeOf, passRule, type PassRule } from '#shared/assessment/pass-rule.ts';
import type { CalloutResult, ItemMarks, ItemResult } from '#shared/assessment/result.ts';
import { criteria, type Criterion, type MarkSheet } from '#shared/marking/mark-sheet.ts';

const none = Object.fromEntries(criteria.map((criterion) => [criterion, { got: 0, outOf: 20 }])) as Record<
	Criterion,
	{ got: number; outOf: number }
>;
const sheet: MarkSheet = {
	packHash: 'a',
	seed: 1,
	total: 0,
	outOf: 100,
	byCriterion: none,
	lines: [],
	failed: false,
	recall: 'sound',
	misread: []
};

function played({ failed = false, cured = true } = {}): CalloutResult {
	return { kind: 'callout', sheet: { ...sheet, failed }, cured, minutes: 30, spent: 0, finished: true };
}

const marksOf = (...got: number[]): ItemMarks[] => got.map((one, slot) => ({ slot, got: one, outOf: 100, byCriterion: null }));
const rule = (changed: Partial<PassRule> = {}): PassRule => ({ mark: 60, noDanger: true, cured: 0, ...changed });

describe('a paper', () => {
	it('is passed at the mark and failed a tenth below it', () => {
		const results = [played(), played()];
		expect(outcomeOf(rule(), results, marksOf(60, 60))).toEqual({ got: 120, outOf: 200, percent: 60, passed: true, because: [] });
		const failed = outcomeOf(rule(), results, marksOf(60, 59.8));
		expect(failed).toMatchObject({ percent: 59.9, passed: false });
		expect(failed.because).toHaveLength(1);
	});

	it('is failed by a dangerous act whatever the marks, where the rule says so', () => {
		const results = [played({ failed: true }), played()];
		expect(outcomeOf(rule(), results, marksOf(100, 100)).passed).toBe(false);
		expect(outcomeOf(rule({ noDanger: false }), results, marksOf(100, 100)).passed).toBe(true);
	});

	it('is failed by too few cures whatever the marks', () => {
		const results: ItemResult[] = [played(), played({ cured: false }), { kind: 'untried', of: 'callout' }];
		expect(outcomeOf(rule({ cured: 1 }), results, marksOf(100, 90, 80)).passed).toBe(true);
		expect(outcomeOf(rule({ cured: 2 }), results, marksOf(100, 90, 80)).passed).toBe(false);
	});

	it('says each thing that it was failed for', () => {
		const because = outcomeOf(rule({ cured: 2 }), [played({ failed: true, cured: false })], marksOf(10)).because;
		expect(because).toHaveLength(3);
		expect(because[1]).toMatch(/1 callout\./);
	});

	it('of nothing comes to nothing, and is not a share of nothing', () => {
		expect(outcomeOf(rule(), [], [])).toMatchObject({ got: 0, outOf: 0, percent: 0, passed: false });
	});

	it('is never failed by more marks', () => {
		const marks = fc.array(fc.integer({ min: 0, max: 99 }), { minLength: 1, maxLength: 8 });
		fc.assert(
			fc.property(marks, fc.integer({ min: 0, max: 100 }), fc.nat(), (got, mark, at) => {
				const results = got.map(() => played());
				const before = outcomeOf(rule({ mark }), results, marksOf(...got));
				const more = got.with(at % got.length, got[at % got.length] + 1);
				const after = outcomeOf(rule({ mark }), results, marksOf(...more));
				expect(after.percent).toBeGreaterThanOrEqual(before.percent);
				expect(!before.passed || after.passed).toBe(true);
				expect(before.passed).toBe(before.percent >= mark);
			})
		);
	});
});

it('a rule wants a mark that can be reached', () => {
	expect(passRule.safeParse(rule({ mark: 101 })).success).toBe(false);
	expect(passRule.safeParse(rule({ mark: 100 })).success).toBe(true);
});
