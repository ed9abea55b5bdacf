/** The items of a sitting: what is to be played, how far it has come, and the beginning of it. */
import { and, asc, eq } from 'drizzle-orm';
import { outOf } from '#shared/assessment/result.ts';
import type { VariantItem } from '#shared/assessment/variant.ts';
import { NoComplaint } from '#shared/callout/make.ts';
import { drillSkillId } from '#shared/review/skills.ts';
import type { Callouts } from '../callouts/callouts.ts';
import type { Database } from '../database/open.ts';
import { attempt, drill, sitting, sittingItem, type SittingRow } from '../database/schema.ts';
import { itemsOf } from '../papers/kept-paper.ts';
import type { Practice } from '../practice/practice.ts';
import { isOver } from './allowed.ts';

/** `untried`: not begun; `begun`: looked at, and not brought to its end; `done`: the callout was left, or the drill answered. */
export type ItemState = 'untried' | 'begun' | 'done';

/** An item as its learner may see it while it is held back: of a callout the family, and of neither its skill. */
export interface SatItem {
	readonly slot: number;
	/** `Callout: a combi with ...`, `Drill: Sums of water`. */
	readonly what: string;
	readonly kind: VariantItem['kind'];
	readonly outOf: number;
	readonly state: ItemState;
	/** What was played of it. */
	readonly attempt: string | null;
	readonly drill: string | null;
}

export type GoneTo =
	| { readonly outcome: 'callout' | 'drill'; readonly id: string }
	/** The drill waits for an evidence table. */
	| { readonly outcome: 'making' }
	/** This version can no longer play it. */
	| { readonly outcome: 'unplayable' }
	| { readonly outcome: 'missing' }
	| { readonly outcome: 'closed' };

export interface ItemParts {
	readonly db: Database;
	readonly callouts: Callouts;
	readonly practice: Pick<Practice, 'drills' | 'plans'>;
}

export type SittingItems = ReturnType<typeof sittingItemsIn>;

export function sittingItemsIn({ db, callouts, practice: { drills, plans } }: ItemParts) {
	function playedIn(sittingId: string) {
		return db
			.select({ item: sittingItem, ended: attempt.ended, answered: drill.answered })
			.from(sittingItem)
			.leftJoin(attempt, eq(attempt.id, sittingItem.attempt))
			.leftJoin(drill, eq(drill.id, sittingItem.drill))
			.where(eq(sittingItem.sitting, sittingId))
			.orderBy(asc(sittingItem.slot))
			.all();
	}

	function begunAs(sittingId: string, slot: number): GoneTo | null {
		const row = db
			.select()
			.from(sittingItem)
			.where(and(eq(sittingItem.sitting, sittingId), eq(sittingItem.slot, slot)))
			.get();
		if (!row) return null;
		return row.attempt !== null ? { outcome: 'callout', id: row.attempt } : { outcome: 'drill', id: row.drill! };
	}

	function whatIs(item: VariantItem): string {
		if (item.kind === 'callout') return `Callout: ${plans.families.get(item.family) ?? 'an appliance no longer in stock'}`;
		const family = item.family === null ? undefined : plans.families.get(item.family);
		return `Drill: ${plans.skills.get(drillSkillId(item.drill))?.name ?? item.drill}${family ? `, ${family}` : ''}`;
	}

	/** Whether nothing can be begun in it any more. */
	function isClosed(sittingId: string, now: number): boolean {
		const row = db.select().from(sitting).where(eq(sitting.id, sittingId)).get();
		return !row || isOver(row, now);
	}

	async function beginDrill(one: SittingRow, learner: string, slot: number, wanted: Extract<VariantItem, { kind: 'drill' }>, now: number) {
		const { generator, family, seed, packHash } = wanted;
		const asked = await drills.ask(learner, { generator, family, seed, packHash }, now, {
			isWanted: () => begunAs(one.id, slot) === null && !isClosed(one.id, now),
			asked: (id) => void db.insert(sittingItem).values({ sitting: one.id, slot, drill: id }).run()
		});
		if (asked.outcome === 'making') return asked;
		if (asked.outcome === 'asked') return { outcome: 'drill', id: asked.id } as const;
		const missed = isClosed(one.id, now) ? ({ outcome: 'closed' } as const) : ({ outcome: 'unplayable' } as const);
		return begunAs(one.id, slot) ?? missed;
	}

	function beginCallout(
		one: SittingRow,
		learner: string,
		slot: number,
		wanted: Extract<VariantItem, { kind: 'callout' }>,
		now: number
	): GoneTo {
		const { family, seed, fault, packHash } = wanted;
		return db.transaction(
			(): GoneTo => {
				const begun = begunAs(one.id, slot);
				if (begun) return begun;
				if (isClosed(one.id, now)) return { outcome: 'closed' };
				try {
					const started = callouts.start(learner, { family, seed, fault, packHash }, now);
					if (started.outcome === 'invalid') return { outcome: 'unplayable' };
					db.insert(sittingItem).values({ sitting: one.id, slot, attempt: started.attemptId }).run();
					return { outcome: 'callout', id: started.attemptId };
				} catch (error) {
					if (error instanceof NoComplaint) return { outcome: 'unplayable' };
					throw error;
				}
			},
			{ behavior: 'immediate' }
		);
	}

	return {
		/** In the paper's order. */
		of({ id, paper, variant }: SittingRow): SatItem[] {
			const played = new Map(playedIn(id).map((row) => [row.item.slot, row]));
			return itemsOf(db, paper, variant).map((item, slot): SatItem => {
				const row = played.get(slot);
				const state = !row ? 'untried' : row.ended || row.answered ? 'done' : 'begun';
				const came = { attempt: row?.item.attempt ?? null, drill: row?.item.drill ?? null };
				return { slot, what: whatIs(item), kind: item.kind, outOf: outOf[item.kind], state, ...came };
			});
		},

		/** To one item, begun where it has not been: once, however many tabs ask for it. */
		async goTo(one: SittingRow, learner: string, slot: number, now: number): Promise<GoneTo> {
			const wanted = itemsOf(db, one.paper, one.variant)[slot];
			if (!wanted) return { outcome: 'missing' };
			const begun = begunAs(one.id, slot);
			if (begun) return begun;
			return wanted.kind === 'drill' ? beginDrill(one, learner, slot, wanted, now) : beginCallout(one, learner, slot, wanted, now);
		}
	};
}
