/** A variant laid open before anybody sits it: what is hidden in each place, its sound path, the worked answer of a drill. Never a learner's. */
import { slotsOf } from '#shared/assessment/blueprint.ts';
import { someAnswer, type LaidOpen } from '#shared/assessment/laid-open.ts';
import type { CalloutItem, Difficulty, DrillItem, VariantItem } from '#shared/assessment/variant.ts';
import type { Generator, Judged, Question } from '#shared/review/drills/drill.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { paperOf, type AtPaper } from '../cohorts/kept.ts';
import type { Database } from '../database/open.ts';
import type { CohortRow, PaperRow } from '../database/schema.ts';
import type { PackOf } from '../packs/earlier-packs.ts';
import { inAMoment } from '../patience.ts';
import { makeDrill } from '../practice/made-drills.ts';
import { Recent } from '../recent.ts';
import type { DrawSources } from './draw-variants.ts';
import { blueprintOf, itemsOf, variantsOf } from './kept-paper.ts';
import { slotWords } from './slot-words.ts';
import type { PaperStock } from './stock.ts';

export type OpenItem = { readonly slot: number; /** What its place asks for. */ readonly says: string } & (
	| ({ readonly kind: 'callout'; readonly difficulty: Difficulty } & LaidOpen)
	| ({ readonly kind: 'drill'; readonly question: Question } & Pick<Judged, 'answer' | 'worked'>)
	/** This version would make something else of it. */
	| { readonly kind: 'over' }
);

export interface VariantPage {
	readonly cohort: Pick<CohortRow, 'id' | 'name'>;
	readonly paper: Pick<PaperRow, 'id' | 'title' | 'set'>;
	readonly number: number;
	readonly numbers: readonly number[];
	/** Null while it is being worked out. */
	readonly items: readonly OpenItem[] | null;
}

export interface VariantSources {
	readonly packOf: PackOf;
	readonly tableOf: DrawSources['tableOf'];
	readonly generators: ReadonlyMap<string, Generator>;
	readonly stock: () => PaperStock;
	readonly layOpen: (pack: Pack, table: Awaited<ReturnType<DrawSources['tableOf']>>, item: CalloutItem) => Promise<LaidOpen>;
}

type Opened = Promise<OpenItem extends infer Item ? (Item extends OpenItem ? Omit<Item, 'slot' | 'says'> : never) : never>;

export function variantPagesIn(db: Database, { packOf, tableOf, generators, stock, layOpen }: VariantSources) {
	/** Being worked out, or ready. */
	const opened = new Recent<Opened>(200);

	async function open(item: VariantItem): Opened {
		const pack = item.family === null || item.packHash === null ? null : packOf(item.family, item.packHash);
		if (item.kind === 'drill') return openDrill(item, pack);
		if (!pack) return { kind: 'over' };
		return { kind: 'callout', difficulty: item.difficulty, ...(await layOpen(pack, await tableOf(pack), item)) };
	}

	async function openDrill({ generator: id, family, seed }: DrillItem, pack: Pack | null): Opened {
		const generator = generators.get(id);
		if (!generator || (family !== null && !pack)) return { kind: 'over' };
		const drill = await makeDrill(generator, pack, pack && (await tableOf(pack)), seed);
		const judged = await drill.judge(someAnswer(drill.question.asking), 0);
		if ('refused' in judged) throw new Error(`the drill ${id} takes no answer: ${judged.refused}`);
		return { kind: 'drill', question: drill.question, answer: judged.answer, worked: judged.worked };
	}

	function openedOf(item: VariantItem): Opened {
		const key = JSON.stringify(item);
		const before = opened.get(key);
		if (before) return before;
		const now = open(item);
		opened.set(key, now);
		now.catch(() => opened.delete(key));
		return now;
	}

	/**
	 * @returns null where there is no such variant of the assessor's own
	 * @throws WeighingFailed, or what the making of an evidence table failed with
	 */
	return async (at: AtPaper, number: number): Promise<VariantPage | null> => {
		const found = paperOf(db, at.assessor, at.cohort, at.paper);
		const items = found ? itemsOf(db, at.paper, number) : [];
		if (!found || items.length === 0) return null;
		const slots = slotsOf(blueprintOf(found.paper));
		const all = await inAMoment(Promise.all(items.map(openedOf)));
		const { cohort, paper } = found;
		return {
			cohort: { id: cohort.id, name: cohort.name },
			paper: { id: paper.id, title: paper.title, set: paper.set },
			number,
			numbers: variantsOf(db, at.paper).map((variant) => variant.number),
			items: all && all.map((item, slot) => ({ slot, says: slotWords(slots[slot]!, stock()), ...item }) as OpenItem)
		};
	};
}
