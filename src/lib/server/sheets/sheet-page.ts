/** What the page of a mark sheet asks for. */
import { isDeepStrictEqual } from 'node:util';
import type { ItemMarks, ItemResult } from '#shared/assessment/result.ts';
import type { PassRule } from '#shared/assessment/pass-rule.ts';
import type { VariantItem } from '#shared/assessment/variant.ts';
import { auditOf, reasonsOf } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { itemsOf, passRuleOf } from '../papers/kept-paper.ts';
import { rulesOf } from '../records/sat-paper.ts';
import { historyOf, namesOf, type History } from './history.ts';
import { itemName } from './item-names.ts';
import { mayBeSecond, notYet, sheetAt, warningOf, type SheetAt } from './moderation.ts';
import type { PathShown, Played } from './played.ts';
import { CannotMark, type Results } from './results.ts';
import type { Sheet } from './sheet.ts';
import { worth } from './worth.ts';

export interface ItemOnSheet {
	readonly slot: number;
	readonly name: string;
	readonly item: VariantItem;
	/** As worked out when the sitting closed. */
	readonly result: ItemResult;
	/** Marks of that. */
	readonly given: { readonly got: number; readonly outOf: number };
	/** As they stand after moderation. */
	readonly marks: ItemMarks;
	/** Null for a drill, for what was never begun, and for what this version can no longer play again. */
	readonly path: PathShown | null;
}

export interface SheetPage extends Pick<Sheet, 'outcome' | 'state' | 'lockedOver'> {
	readonly cohort: string;
	readonly paper: { readonly title: string; readonly mode: 'practice' | 'formal'; readonly rule: PassRule };
	readonly member: { readonly name: string; readonly reference: string | null };
	readonly sitting: Pick<Sheet['sitting'], 'variant' | 'number' | 'started' | 'ended' | 'endedBy' | 'marked' | 'locked'>;
	readonly lockedBy: string | null;
	/** Who closed the sitting before its time, and why; null where nobody did. */
	readonly closedBy: { readonly name: string | null; readonly why: string | null } | null;
	readonly items: readonly ItemOnSheet[];
	readonly history: History;
	/** Id of the latest change of a mark; 0 for none. */
	readonly seen: number;
	/** The local rules that were in force, by name. */
	readonly rules: readonly string[];
	/** What this assessor can do now: nothing of it on an invented cohort's sheet. */
	readonly may: {
		readonly change: boolean;
		readonly second: boolean;
		/** Why it cannot be locked yet; null where it can. */
		readonly notYet: string | null;
		/** What is to be known before it is locked. */
		readonly warning: string | null;
		readonly isInvented: boolean;
	};
}

/** @returns null where there is no such sheet among the assessor's own, or the sitting is not marked yet */
export function sheetPage(db: Database, played: Played, assessorId: string, at: SheetAt, now: number): SheetPage | null {
	const found = sheetAt(db, assessorId, at);
	if (!found) return null;
	const { sheet, cohort } = found;
	const { paper, sitting, member, results, marks } = sheet;
	const items = itemsOf(db, paper.id, sitting.variant);
	const { variant, number, started, ended, endedBy, marked, locked } = sitting;
	const isOpen = sheet.state !== 'locked' && !cohort.invented;
	return {
		cohort: cohort.name,
		paper: { title: paper.title, mode: paper.mode, rule: passRuleOf(paper) },
		member: { name: member.name, reference: member.reference },
		sitting: { variant, number, started, ended, endedBy, marked, locked },
		closedBy: endedBy === 'assessor' ? closedBy(db, sitting.id) : null,
		lockedBy: namesOf(db, [sitting.lockedBy])(sitting.lockedBy),
		items: results.map((result, slot) => {
			const one = result.kind === 'callout' ? played.callout(sitting.id, slot) : null;
			return {
				slot,
				name: itemName(items[slot]!),
				item: items[slot]!,
				result,
				given: worth(result),
				marks: marks[slot]!,
				path: one && played.pathOf(one)
			};
		}),
		outcome: sheet.outcome,
		state: sheet.state,
		lockedOver: sheet.lockedOver,
		history: historyOf(db, sheet),
		seen: sheet.changes.at(-1)?.id ?? 0,
		rules: rulesOf(db, [...new Set(items.flatMap(({ packHash }) => packHash ?? []))]),
		may: {
			change: isOpen,
			second: isOpen && mayBeSecond(sheet, assessorId),
			notYet: notYet(sheet, now),
			warning: warningOf(sheet),
			isInvented: cohort.invented
		}
	};
}

function closedBy(db: Database, sittingId: string): SheetPage['closedBy'] {
	const row = auditOf(db, sittingId).find(({ kind }) => kind === 'sitting-ended');
	return row ? { name: namesOf(db, [row.by])(row.by), why: reasonsOf(db, [row]).get(row.seq) ?? null } : null;
}

export type MarkedAgain =
	| { readonly outcome: 'same' }
	| { readonly outcome: 'other'; readonly slots: readonly number[] }
	| { readonly outcome: 'cannot'; readonly says: string };

/**
 * Works the results out again from packs, seeds, actions and answers, and holds them against those that are stored, to the last digit.
 * @throws WeighingFailed, or what the making of an evidence table failed with
 */
export async function markedAgain(results: Results, sheet: Pick<Sheet, 'sitting' | 'results'>): Promise<MarkedAgain> {
	try {
		// By way of JSON, as they were stored.
		const fresh = JSON.parse(JSON.stringify(await results.of(sheet.sitting))) as ItemResult[];
		const slots = [...new Set([...fresh.keys(), ...sheet.results.keys()])].filter(
			(slot) => !isDeepStrictEqual(fresh[slot], sheet.results[slot])
		);
		return slots.length === 0 ? { outcome: 'same' } : { outcome: 'other', slots };
	} catch (error) {
		if (!(error instanceof CannotMark)) throw error;
		return { outcome: 'cannot', says: 'This version makes other appliances than the one that was sat: it cannot mark the paths again.' };
	}
}
