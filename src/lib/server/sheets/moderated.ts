/** Marks as they stand after moderation: what was worked out, with the latest change of each item and criterion in its place. */
import { criteria, type Criterion } from '#shared/marking/mark-sheet.ts';
import type { ItemMarks, ItemResult } from '#shared/assessment/result.ts';
import type { MarkChangeRow } from '../database/schema.ts';
import { worth } from './worth.ts';

export type Change = Pick<MarkChangeRow, 'slot' | 'criterion' | 'after'>;

/** Marks are given to this part of one. */
const roundedTo = 10;
const rounded = (marks: number) => Math.round(marks * roundedTo) / roundedTo;

/**
 * @param results  of every slot in order
 * @param changes  in the order they were made
 */
export function marksAfter(results: readonly ItemResult[], changes: readonly Change[]): ItemMarks[] {
	return results.map((result, slot) => {
		const latest = new Map(changes.filter((one) => one.slot === slot).map(({ criterion, after }) => [criterion, after]));
		if (result.kind !== 'callout') {
			const { got, outOf } = worth(result);
			return { slot, got: latest.get(null) ?? got, outOf, byCriterion: null };
		}
		const { byCriterion: given, outOf } = result.sheet;
		const byCriterion = Object.fromEntries(
			criteria.map((criterion) => [criterion, { ...given[criterion], got: latest.get(criterion) ?? given[criterion].got }])
		) as Record<Criterion, { got: number; outOf: number }>;
		return { slot, got: rounded(criteria.reduce((sum, criterion) => sum + byCriterion[criterion].got, 0)), outOf, byCriterion };
	});
}

/**
 * What one mark is now and what it is out of; null where there is no such mark to be changed. A callout that was never begun has no path to
 * give marks for.
 * @param criterion  null for the mark of a drill
 */
export function markAt(
	results: readonly ItemResult[],
	marks: readonly ItemMarks[],
	slot: number,
	criterion: string | null
): { readonly got: number; readonly outOf: number } | null {
	const [result, item] = [results[slot], marks[slot]];
	if (!result || !item) return null;
	if (item.byCriterion === null) {
		const isDrill = result.kind === 'drill' || (result.kind === 'untried' && result.of === 'drill');
		return isDrill && criterion === null ? item : null;
	}
	const known = criteria.find((one) => one === criterion);
	return known ? item.byCriterion[known] : null;
}
