/** What could be practised: the skills there are, what can be asked now, and what a round of some minutes would hold. */
import { hash32 } from '#shared/quantity/hash32.ts';
import type { Askable } from '#shared/review/drills/askable.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import { dayOf } from '#shared/review/memory/learner-day.ts';
import { faultsOf } from '#shared/review/round/night.ts';
import { planRound } from '#shared/review/round/plan-round.ts';
import type { Round, RoundItem } from '#shared/review/round/round.ts';
import type { Skill, SkillId } from '#shared/review/skill.ts';
import { skillsOf } from '#shared/review/skills.ts';
import type { Curriculum } from '#shared/scenario/curriculum.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { roundsIn } from '../database/rounds.ts';
import type { Drills } from './drills.ts';
import { reviewOf, type Memories } from './memories.ts';
import { playedIn } from './played.ts';
import { minutesInAll } from './round-minutes.ts';

/** What a round begun now would hold. */
export interface Offer {
	/** The length that it is for [min]. */
	readonly chosen: number;
	/** Skills due for return, new ones, and those brought forward. */
	readonly due: number;
	readonly fresh: number;
	readonly early: number;
	/** Skills that are due and do not fit. */
	readonly left: number;
	/** What it is thought to take, in whole minutes, as its sheet will have it. */
	readonly minutes: number;
	/** Whether drills are left out because an evidence table is being made. */
	readonly isWithoutEvidence: boolean;
}

export interface PlanParts {
	readonly db: Database;
	readonly known: ReadonlyMap<string, Pack>;
	readonly curriculum: Curriculum;
	readonly generators: ReadonlyMap<string, Generator>;
	readonly memories: Memories;
	readonly drills: Drills;
}

export type Plans = ReturnType<typeof plansIn>;

export function plansIn({ db, known, curriculum, generators, memories, drills }: PlanParts) {
	const log = reviewLogIn(db);
	const rounds = roundsIn(db);
	const played = playedIn(db, known, generators);
	const skills: ReadonlyMap<SkillId, Skill> = new Map(skillsOf(curriculum, known.values()).skills.map((skill) => [skill.id, skill]));
	const families: ReadonlyMap<string, string> = new Map([...known.values()].map(({ family: { id, short } }) => [id, short]));
	const faults = faultsOf(known.values());

	/** Another for each learner, night and round, and the same however often it is asked for: what is offered is what is begun. */
	function seedOf(learnerId: string, night: number): number {
		return hash32(`${learnerId}|${night}|${rounds.countOf(learnerId)}`, 0) >>> 1;
	}

	function planWith(able: readonly Askable[], learnerId: string | null, minutes: number, now: number): Round {
		const scheduler = memories.schedulerOf(learnerId);
		return planRound({
			now,
			minutes,
			skills: [...skills.values()],
			memories: [...memories.of(learnerId).values()],
			log: learnerId === null ? [] : log.all(learnerId).map(reviewOf),
			played: learnerId === null ? [] : played(learnerId, now),
			faults,
			generators: able,
			cuts: curriculum.round,
			scheduler,
			seed: seedOf(learnerId ?? '', dayOf(now, scheduler.zone))
		});
	}

	return {
		skills,
		families,
		seedOf,

		/** @param learnerId  null for a visitor who is no learner yet */
		async planFor(learnerId: string | null, minutes: number, now: number): Promise<Round> {
			return planWith(await drills.askable(), learnerId, minutes, now);
		},

		/** Whether what an item asks for is still in stock. */
		canPlay(item: RoundItem): boolean {
			if (item.kind === 'callout') return known.get(item.family)?.faults.some(({ id }) => id === item.fault) ?? false;
			return drills.canAsk(item);
		},

		/** @param learnerId  null for a visitor who is no learner yet */
		async offer(learnerId: string | null, minutes: number, now: number): Promise<Offer> {
			const able = await drills.askable();
			const { items, left } = planWith(able, learnerId, minutes, now);
			const count = (why: RoundItem['why']) => new Set(items.flatMap((item) => (item.why === why ? [item.skill] : []))).size;
			return {
				chosen: minutes,
				due: count('due'),
				fresh: count('new'),
				early: count('early'),
				left,
				minutes: minutesInAll(items.map((wanted) => ({ wanted, reviews: [] }))),
				isWithoutEvidence: able.some(({ waiting }) => waiting.length > 0)
			};
		},

		/** How much of a kind of drill can be asked now; null where there is nothing of it to ask at all. */
		async askable(): Promise<(drill: string) => 'ready' | 'part' | 'none' | null> {
			const now = await drills.askable();
			return (drill) => {
				const ofKind = now.filter((one) => one.drill === drill);
				const can = ofKind.some(({ families }) => families === null || families.length > 0);
				const waits = ofKind.some(({ waiting }) => waiting.length > 0);
				return can ? (waits ? 'part' : 'ready') : waits ? 'none' : null;
			};
		}
	};
}
