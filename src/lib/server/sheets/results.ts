/** What each item of a sitting came to, worked out from what is stored of it: the same rows give the same results, to the last digit. */
import { eq } from 'drizzle-orm';
import { action } from '#shared/callout/action.ts';
import type { ItemResult } from '#shared/assessment/result.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { answerWords } from '$lib/practice/answer-words.ts';
import { attemptsIn } from '../database/attempts.ts';
import { drillsIn } from '../database/drills.ts';
import type { Database } from '../database/open.ts';
import { sittingItem, type DrillRow, type SittingRow } from '../database/schema.ts';
import { evidenceFor } from '../evidence/evidence.ts';
import { earlierPacksIn } from '../packs/earlier-packs.ts';
import { itemsOf } from '../papers/kept-paper.ts';
import { judgeStored, makeDrill, type MadeDrill } from '../practice/made-drills.ts';
import { markWeigher } from '../weighing/weigher.ts';

/** This version can no longer work out what an item was: its pack or its drill is another now. */
export class CannotMark extends Error {
	override readonly name = 'CannotMark';
}

export type Results = ReturnType<typeof resultsIn>;

/** @param known  the packs of today by family; what was made from an earlier one is marked by the pack kept with it */
export function resultsIn(db: Database, known: ReadonlyMap<string, Pack>, generators: ReadonlyMap<string, Generator>) {
	const attempts = attemptsIn(db);
	const drills = drillsIn(db);
	const packOf = earlierPacksIn(db, known);

	async function ofCallout(attemptId: string): Promise<ItemResult> {
		const attempt = attempts.find(attemptId);
		if (!attempt) throw new CannotMark(`the attempt ${attemptId} is gone`);
		const actions = attempts.actions(attemptId).map(({ content }) => action.parse(JSON.parse(content)));
		// It was looked at and left as it was found: there is no path to mark.
		if (actions.length === 0) return { kind: 'untried', of: 'callout' };
		const pack = packOf(attempt.family, attempt.packHash);
		if (!pack) throw new CannotMark(`no pack ${attempt.packHash} of ${attempt.family} can be had in this version`);
		return markWeigher.weigh(pack, await evidenceFor(pack), 'marked', { seed: attempt.seed, fault: attempt.fault, actions });
	}

	/** The drill as it was asked. */
	async function drillOf({ generator: id, family, packHash, seed }: DrillRow): Promise<MadeDrill> {
		const generator = generators.get(id);
		const pack = family === null || packHash === null ? null : packOf(family, packHash);
		if (!generator || (family !== null && !pack)) throw new CannotMark(`the drill ${id} cannot be made again in this version`);
		const table = pack && generator.needs === 'evidence' ? await evidenceFor(pack) : null;
		return makeDrill(generator, pack, table, seed);
	}

	async function ofDrill(drillId: string): Promise<ItemResult> {
		const row = drills.find(drillId);
		if (!row) throw new CannotMark(`the drill ${drillId} is gone`);
		const drill = row.answer === null ? null : await drillOf(row);
		const stored = drill && (await judgeStored(drill, row));
		if (!stored) return { kind: 'untried', of: 'drill' };
		const { answer, judged, seconds } = stored;
		if ('refused' in judged) throw new CannotMark(`the answer to the drill ${drillId} is none any more: ${judged.refused}`);
		return { kind: 'drill', right: judged.right, seconds, said: answerWords(answer, drill.question.asking), answer: judged.answer };
	}

	return {
		packOf,
		drillOf,

		/**
		 * Every slot of the sitting's variant in order.
		 * @throws CannotMark, WeighingFailed, or what the making of an evidence table failed with
		 */
		async of({ id, paper, variant }: Pick<SittingRow, 'id' | 'paper' | 'variant'>): Promise<ItemResult[]> {
			const begun = new Map(
				db
					.select()
					.from(sittingItem)
					.where(eq(sittingItem.sitting, id))
					.all()
					.map((row) => [row.slot, row])
			);
			const results: ItemResult[] = [];
			for (const [slot, item] of itemsOf(db, paper, variant).entries()) {
				const { attempt = null, drill = null } = begun.get(slot) ?? {};
				if (attempt !== null) results.push(await ofCallout(attempt));
				else if (drill !== null) results.push(await ofDrill(drill));
				else results.push({ kind: 'untried', of: item.kind });
			}
			return results;
		}
	};
}
