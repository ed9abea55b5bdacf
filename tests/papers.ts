/** Papers as tests set them: rows of the tables, without the pages that make them. */
import { randomUUID } from 'node:crypto';
import { addLearner } from '$lib/server/accounts/index.ts';
import type { Database } from '$lib/server/database/open.ts';
import { cohort, cohortAssessor, learner, member, paper, variantItem, type MemberRow, type PaperRow } from '$lib/server/database/schema.ts';
import { attemptsIn } from '$lib/server/database/attempts.ts';
import { packToKeep } from '$lib/server/packs/kept-packs.ts';
import { packs } from '$lib/server/packs/packs.ts';
import type { BlueprintLine } from '#shared/assessment/blueprint.ts';
import type { PassRule } from '#shared/assessment/pass-rule.ts';
import type { CalloutItem, DrillItem, VariantItem } from '#shared/assessment/variant.ts';
import { makeCallout, NoComplaint } from '#shared/callout/make.ts';
import type { Pack } from '#shared/scenario/pack.ts';

export const minuteMs = 60_000;
export const hourMs = 60 * minuteMs;

const noDifficulty = { minutes: 30, spent: 100, cost: 130, bits: 3, checks: 5 };

/** A callout with this fault of this family, with the first seed from `seed` on of which somebody would complain. */
export function calloutItem({ fault, seed = 1000, pack = firstPack() }: { fault?: string; seed?: number; pack?: Pack } = {}): CalloutItem {
	const hidden = pack.faults.find(({ id }) => id === (fault ?? pack.faults[0]!.id))!;
	for (let from = seed; ; from++) {
		let complaint: string;
		try {
			complaint = makeCallout(pack, from, hidden.id).complaint.id;
		} catch (error) {
			if (error instanceof NoComplaint) continue;
			throw error;
		}
		const { id: family } = pack.family;
		return {
			kind: 'callout',
			family,
			area: hidden.area,
			fault: hidden.id,
			complaint,
			seed: from,
			packHash: pack.hash,
			difficulty: noDifficulty
		};
	}
}

/** A sum that needs no evidence table. */
export const drillItem = (seed = 7): DrillItem => ({
	kind: 'drill',
	drill: 'water-sums',
	generator: 'expansion-volume',
	family: null,
	seed,
	packHash: null
});

export const firstPack = (): Pack => [...packs().values()][0]!;

/** So many variants of two callouts and a drill, each with other faults and other figures. */
export function someVariants(count = 3): VariantItem[][] {
	const { faults } = firstPack();
	return Array.from({ length: count }, (_, index) => [
		calloutItem({ fault: faults[(2 * index) % faults.length]!.id, seed: 1_987_000_000 + 1000 * index }),
		calloutItem({ fault: faults[(2 * index + 1) % faults.length]!.id, seed: 1_987_500_000 + 1000 * index }),
		drillItem(1_986_000_007 + index)
	]);
}

/** An account without a password, which no browser can sign in to. */
export function addAccount(db: Database, name: string, role: 'learner' | 'assessor' | 'author' | 'owner' = 'learner'): string {
	const { id } = addLearner({ guest: false, invented: false }, db);
	db.$client.prepare('update learner set name = ?, name_key = ?, role = ? where id = ?').run(name, name.toLowerCase(), role, id);
	return id;
}

/** A cohort, kept by the assessor where one is named. */
export function makeCohort(db: Database, { name = 'Tuesday group', assessor }: { name?: string; assessor?: string } = {}): string {
	const id = randomUUID();
	const now = new Date();
	db.insert(cohort).values({ id, name, created: now }).run();
	if (assessor) db.insert(cohortAssessor).values({ cohort: id, assessor, since: now }).run();
	return id;
}

/** Puts a learner on a cohort's register. @returns the member's id */
export function joinCohort(db: Database, cohortId: string, learnerId: string | null, more: Partial<MemberRow> = {}): string {
	const id = randomUUID();
	const now = new Date();
	const name =
		(learnerId &&
			db
				.select()
				.from(learner)
				.all()
				.find((one) => one.id === learnerId)?.name) ||
		`Member ${id.slice(0, 4)}`;
	db.insert(member)
		.values({ id, cohort: cohortId, name, learner: learnerId, created: now, joined: learnerId === null ? null : now, ...more })
		.run();
	return id;
}

export interface PaperChoice extends Partial<Omit<PaperRow, 'opens' | 'closes' | 'passRule' | 'blueprint'>> {
	readonly cohort: string;
	/** [ms since 1970]; an hour ago, and in three hours. */
	readonly opens?: number;
	readonly closes?: number;
	readonly passRule?: PassRule;
	readonly variants?: readonly (readonly VariantItem[])[];
	readonly now?: number;
}

/** A paper that is set and open, unless `set` is null. @returns its id */
export function makePaper(db: Database, choice: PaperChoice): string {
	const { now = Date.now(), opens = now - hourMs, closes = now + 3 * hourMs, passRule, variants = someVariants(), ...row } = choice;
	const id = row.id ?? randomUUID();
	const lines = (variants[0] ?? []).map((item): BlueprintLine => {
		if (item.kind === 'drill') return { kind: 'drill', drill: item.drill, count: 1 };
		return { kind: 'callout', family: item.family, area: null, count: 1 };
	});
	db.insert(paper)
		.values({
			title: 'Hot water, first paper',
			mode: 'formal',
			minutes: 60,
			attempts: 1,
			created: new Date(now),
			createdBy: 'somebody',
			set: new Date(now),
			...row,
			id,
			opens: new Date(opens),
			closes: new Date(closes),
			blueprint: JSON.stringify({ lines }),
			passRule: JSON.stringify(passRule ?? { mark: 60, noDanger: true, cured: 0 })
		})
		.run();
	for (const pack of packs().values())
		attemptsIn(db).keepPack({ hash: pack.hash, family: pack.family.id, content: packToKeep(pack), created: new Date(now) });
	for (const [index, items] of variants.entries())
		for (const [slot, item] of items.entries())
			db.insert(variantItem)
				.values({ paper: id, variant: index + 1, slot, content: JSON.stringify(item) })
				.run();
	return id;
}
