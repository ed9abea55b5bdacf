/** Refreshers: what differs between a family met tomorrow and those known, and a round of exactly that. */
import { dayOf } from '#shared/review/memory/learner-day.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import { refresherItems, refresherMinutes } from '#shared/review/refresher/differing-callouts.ts';
import { differencesOf, type Differences } from '#shared/review/refresher/differences.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { LimitId } from '#shared/scenario/safety.ts';
import type { Rules } from '#shared/scenario/schema.ts';
import { Recent } from '../recent.ts';
import type { Memories } from './memories.ts';
import type { Plans } from './plans.ts';
import type { RefresherFamilies, RoundView } from './round-view.ts';
import type { Rounds } from './rounds.ts';

export interface FamilyName {
	readonly id: string;
	readonly name: string;
	readonly short: string;
}

/** What can be chosen from. */
export interface RefresherChoice {
	/** Every family in stock; `isBegun` where the learner has shown a skill of it. */
	readonly families: readonly (FamilyName & { readonly isBegun: boolean })[];
}

/** What differs, for the page that says so. */
export interface RefresherSheet {
	readonly met: FamilyName;
	readonly known: readonly FamilyName[];
	/** Of the families named as known, those that are not in stock. */
	readonly missing: readonly string[];
	readonly differences: Differences;
	/** Names of the demands within a sentence, by id. */
	readonly demands: Readonly<Record<string, string>>;
	/** Whether there is anything to practise. */
	readonly isPlayable: boolean;
	/** The local rules in force, by name. */
	readonly rules: string;
	/** From how hot tap water scalds, as the rules have it. */
	readonly scald: Rules['limits'][string];
}

/** `unknown`: no such family is met; `alone`: none is known to compare it with. */
export type Compared = { readonly outcome: 'compared'; readonly sheet: RefresherSheet } | { readonly outcome: 'unknown' | 'alone' };

export type RefresherBegun =
	| { readonly outcome: 'begun' }
	/** Another round is open, and was not to be ended for it. */
	| { readonly outcome: 'open'; readonly round: RoundView }
	| { readonly outcome: 'alike' | 'unknown' | 'alone' };

export interface RefresherParts {
	readonly known: ReadonlyMap<string, Pack>;
	readonly generators: ReadonlyMap<string, Generator>;
	readonly memories: Memories;
	readonly plans: Plans;
	readonly rounds: Rounds;
}

export const familyNameOf = ({ family: { id, name, short } }: Pack): FamilyName => ({ id, name, short });

export type Refreshers = ReturnType<typeof refreshersIn>;

export function refreshersIn({ known: packs, generators, memories, plans, rounds }: RefresherParts) {
	const compared = new Recent<Differences>(20);

	/** Worked out from samples of machines the first time, which takes some tenths of a second. */
	function differences(met: Pack, known: readonly Pack[]): Differences {
		const key = [met, ...known].map(({ hash }) => hash).join();
		let found = compared.get(key);
		if (!found) compared.set(key, (found = differencesOf(met, known)));
		return found;
	}

	function packsOf({ met, known }: RefresherFamilies): { met: Pack; known: Pack[] } | 'unknown' | 'alone' {
		const pack = packs.get(met);
		if (!pack) return 'unknown';
		const others = [...packs.values()].filter(({ family: { id } }) => id !== met && known.includes(id));
		return others.length === 0 ? 'alone' : { met: pack, known: others };
	}

	const itemsFor = (met: Pack, known: readonly Pack[], seed: number) =>
		refresherItems({ met, known, differences: differences(met, known) }, [...generators.values()], seed);

	return {
		/** @param learnerId  null for a visitor who is no learner yet */
		choice(learnerId: string | null): RefresherChoice {
			const begun = new Set(
				[...memories.of(learnerId).keys()].flatMap((id) => {
					const skill = plans.skills.get(id);
					return skill?.kind === 'area' ? [skill.family] : [];
				})
			);
			return { families: [...packs.values()].map((pack) => ({ ...familyNameOf(pack), isBegun: begun.has(pack.family.id) })) };
		},

		compare(families: RefresherFamilies): Compared {
			const found = packsOf(families);
			if (typeof found === 'string') return { outcome: found };
			const { met, known } = found;
			return {
				outcome: 'compared',
				sheet: {
					met: familyNameOf(met),
					known: known.map(familyNameOf),
					missing: families.known.filter((id) => !packs.has(id)),
					differences: differences(met, known),
					demands: Object.fromEntries(met.family.demands.map(({ id, short }) => [id, short])),
					isPlayable: itemsFor(met, known, 0).some(({ kind }) => kind === 'callout'),
					rules: met.rules.name,
					scald: met.rules.limits['scald-temp' satisfies LimitId]!
				}
			};
		},

		/** @param endsOpen  whether a round that is open is ended for it; what was done in it counts */
		begin(learnerId: string, families: RefresherFamilies, now: number, endsOpen: boolean): RefresherBegun {
			const found = packsOf(families);
			if (typeof found === 'string') return { outcome: found };
			const { met, known } = found;
			const { zone } = memories.schedulerOf(learnerId);
			const items = itemsFor(met, known, plans.seedOf(learnerId, dayOf(now, zone)));
			if (!items.some(({ kind }) => kind === 'callout')) return { outcome: 'alike' };
			const kept: RefresherFamilies = { met: met.family.id, known: known.map(({ family }) => family.id) };
			const row = { learner: learnerId, minutes: refresherMinutes, refresher: JSON.stringify(kept) };
			const begun = rounds.beginWith(row, items, now, endsOpen);
			return 'open' in begun ? { outcome: 'open', round: begun.open } : { outcome: 'begun' };
		}
	};
}
