/** Papers as they are kept, read back into what the core knows. */
import { and, asc, eq } from 'drizzle-orm';
import { blueprint, type Blueprint } from '#shared/assessment/blueprint.ts';
import { passRule, type PassRule } from '#shared/assessment/pass-rule.ts';
import type { Variant, VariantItem } from '#shared/assessment/variant.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Database } from '../database/open.ts';
import { attemptsIn } from '../database/attempts.ts';
import { paper, variantItem, type PaperRow } from '../database/schema.ts';
import { digestOf } from '../digest.ts';
import { packToKeep } from '../packs/kept-packs.ts';

export const paperById = (db: Database, id: string): PaperRow | undefined => db.select().from(paper).where(eq(paper.id, id)).get();

export const blueprintOf = (row: Pick<PaperRow, 'blueprint'>): Blueprint => blueprint.parse(JSON.parse(row.blueprint));
export const passRuleOf = (row: Pick<PaperRow, 'passRule'>): PassRule => passRule.parse(JSON.parse(row.passRule));

/** What stands in the audit trail of a paper that is set: all that its results rest on. */
export const termsOf = (db: Database, row: PaperRow) => {
	const { mode, minutes, attempts, opens, closes } = row;
	const variants = digestOf(JSON.stringify(variantsOf(db, row.id)));
	return { mode, minutes, attempts, opens, closes, passRule: passRuleOf(row), blueprint: blueprintOf(row), variants };
};

/** Items of one variant by slot. */
export function itemsOf(db: Database, paperId: string, variant: number): VariantItem[] {
	const ofVariant = and(eq(variantItem.paper, paperId), eq(variantItem.variant, variant));
	const rows = db.select().from(variantItem).where(ofVariant).orderBy(asc(variantItem.slot)).all();
	return rows.map(({ content }) => JSON.parse(content) as VariantItem);
}

/**
 * Keeps variants with the packs that their items are made from, in place of any that the paper had. To be called in a transaction.
 * @param known  among which those packs are
 */
export function keepVariants(db: Database, paperId: string, variants: readonly Variant[], known: Iterable<Pack>, at: Date): void {
	const hashes = new Set(variants.flatMap(({ items }) => items.map(({ packHash }) => packHash)));
	for (const pack of known) {
		if (!hashes.has(pack.hash)) continue;
		attemptsIn(db).keepPack({ hash: pack.hash, family: pack.family.id, content: packToKeep(pack), created: at });
	}
	db.delete(variantItem).where(eq(variantItem.paper, paperId)).run();
	for (const { number, items } of variants)
		for (const [slot, item] of items.entries())
			db.insert(variantItem)
				.values({ paper: paperId, variant: number, slot, content: JSON.stringify(item) })
				.run();
}

/** All variants that were drawn, by number. */
export function variantsOf(db: Database, paperId: string): Variant[] {
	const numbers = db.selectDistinct({ number: variantItem.variant }).from(variantItem).where(eq(variantItem.paper, paperId)).all();
	return numbers.map(({ number }) => ({ number, items: itemsOf(db, paperId, number) })).sort((a, b) => a.number - b.number);
}
