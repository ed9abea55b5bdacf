/**
 * What it costs to be kept at a desired recall: minutes a day over the time to come, for what a learner knows at present.
 *
 * Each skill is followed through the model from its present memory. It is practised when due; it is lost with the chance that the model
 * gives, and otherwise shown sound; what was lost takes longer and comes back sooner. The same draws serve every recall desired, so that
 * what differs is the price and not the luck. Limits: the model judges itself; nothing new is begun; nobody misses a night.
 */
import { chance } from '#shared/quantity/random.ts';
import type { RoundCuts } from '#shared/scenario/curriculum.ts';
import { dayOf } from './learner-day.ts';
import type { Memory, Scheduler } from './memory.ts';
import { intervalDays, recallAfter, strengthAfter, type Strength } from './schedule.ts';
import type { SkillId } from '../skill.ts';

/** Those offered as a setting. */
export const retentions = [0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 0.97] as const;

export interface RetentionPrice {
	readonly retention: number;
	readonly minutesPerDay: number;
	readonly practicesPerDay: number;
	/** Mean recall of the skills over all of the days. */
	readonly meanRecall: number;
}

export interface Pricing {
	/** What practising a skill takes when it is not lost [min]. */
	readonly minutesOf: (skill: SkillId) => number;
	readonly cuts: Pick<RoundCuts, 'lostTakes'>;
	/** [ms since 1970] */
	readonly now: number;
	/** How far ahead is looked. */
	readonly days: number;
	/** How often each skill is followed. */
	readonly runs: number;
	readonly seed: number;
}

/** Half a year ahead, eight times each. */
export const usualPricing = { days: 182, runs: 8 } as const;

/** @returns one price for each of the recalls offered, in their order; all 0 where nothing is known */
export function retentionPrices(memories: readonly Memory[], scheduler: Scheduler, pricing: Pricing): RetentionPrice[] {
	return retentions.map((retention) => retentionPrice(memories, { ...scheduler, retention }, pricing));
}

/** The price of the scheduler's own desired recall. */
export function retentionPrice(memories: readonly Memory[], scheduler: Scheduler, pricing: Pricing): RetentionPrice {
	const { days, runs } = pricing;
	const sum = { minutes: 0, practices: 0, recall: 0 };
	for (const memory of memories) {
		for (let run = 0; run < runs; run++) {
			const one = follow(memory, scheduler, pricing, run);
			sum.minutes += one.minutes;
			sum.practices += one.practices;
			sum.recall += one.recall;
		}
	}
	const each = runs * days;
	return {
		retention: scheduler.retention,
		minutesPerDay: sum.minutes / each,
		practicesPerDay: sum.practices / each,
		meanRecall: memories.length === 0 ? 0 : sum.recall / (each * memories.length)
	};
}

/** One skill through the days to come: minutes and practices in all, and the sum of its recall over the days. */
function follow(memory: Memory, { parameters, retention, zone }: Scheduler, pricing: Pricing, run: number) {
	const { minutesOf, cuts, now, days, seed } = pricing;
	const draw = chance(seed, 'retention-price', memory.skill, run);
	const minutes = minutesOf(memory.skill);
	let strength: Strength = memory;
	let last = Math.min(0, dayOf(memory.last, zone) - dayOf(now, zone));
	const sum = { minutes: 0, practices: 0, recall: 0 };
	for (let day = 0; day < days;) {
		const due = Math.max(day, last + intervalDays(strength.stability, retention, parameters));
		for (; day < Math.min(due, days); day++) sum.recall += recallAfter(day - last, strength.stability, parameters);
		if (due >= days) break;
		const isLost = draw.uniform() >= recallAfter(due - last, strength.stability, parameters);
		sum.practices++;
		sum.minutes += isLost ? minutes * cuts.lostTakes : minutes;
		strength = strengthAfter(strength, due - last, isLost ? 'lost' : 'sound', parameters);
		last = due;
	}
	return sum;
}
