/** The recall at which practice comes back: a learner's setting, and what each choice would cost. */
import { eq } from 'drizzle-orm';
import { dayOf } from '#shared/review/memory/learner-day.ts';
import { minutesOf } from '#shared/review/round/minutes-of.ts';
import { retentionPrices, retentions, usualPricing, type RetentionPrice } from '#shared/review/memory/retention-price.ts';
import { curriculum } from '../packs/curriculum.ts';
import { database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { learner } from '../database/schema.ts';
import { Recent } from '../recent.ts';
import { reviewOf } from './memories.ts';
import { practice } from './practice.ts';

export interface RecallSetting {
	/** In force. */
	readonly retention: number;
	/** Skills begun, which the prices are for. */
	readonly skills: number;
	readonly prices: readonly RetentionPrice[];
}

const kept = new Recent<readonly RetentionPrice[]>(100);

/** @param learnerId  null for a visitor who is no learner yet */
export function recallSetting(learnerId: string | null, now = Date.now()): RecallSetting {
	const { plans, memories } = practice();
	const scheduler = memories.schedulerOf(learnerId);
	const log = learnerId === null ? [] : reviewLogIn(database()).all(learnerId).map(reviewOf);
	const known = [...memories.of(learnerId).values()].filter(({ skill }) => plans.skills.has(skill));
	const { round: cuts } = curriculum();
	const minutes = new Map(known.map(({ skill }) => [skill, minutesOf(plans.skills.get(skill)!, log, cuts)]));
	const pricing = { minutesOf: (skill: string) => minutes.get(skill)!, cuts, now, seed: 1, ...usualPricing };
	// They follow from these, and take long enough to be kept.
	const from = JSON.stringify([known, [...minutes], scheduler.parameters, scheduler.zone, dayOf(now, scheduler.zone)]);
	let prices = kept.get(from);
	if (!prices) kept.set(from, (prices = retentionPrices(known, scheduler, pricing)));
	return { retention: scheduler.retention, skills: known.length, prices };
}

/** The one of those offered that a form names; null where it names none. */
export function retentionOf(said: unknown): number | null {
	return retentions.find((one) => String(one) === said) ?? null;
}

/** @param retention  one of those offered */
export function setRetention(learnerId: string, retention: number): void {
	database().update(learner).set({ retention }).where(eq(learner.id, learnerId)).run();
}
