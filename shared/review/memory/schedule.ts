/**
 * From the log of how skills were shown to what is remembered, and when each is to come back. The only file that calls the scheduler
 * library, and the only one in which the library's names for grades appear.
 *
 * FSRS-6: recall after t days R = (1 + F t / S)^(-w20), F = 0.9^(-1/w20) - 1; a review changes stability S and difficulty D by grade and
 * by R. The library's state step and interval are called, not its card: an interval is the published formula, rounded to whole days and at
 * least one. The card's ways would add to it steps of minutes, chance, and an order forced on the four choices, which serve somebody who
 * picks one of them; nobody picks here. Time passes in whole days of the learner: two reviews in one day are same-day reviews.
 *
 * Ours, and from no publication: how a recall becomes a grade. Lost, laboured and sound are again, hard and good. Fluent is easy only where
 * the skill's review before was fluent as well, since one good night may be luck; otherwise it counts as sound.
 * @see the model's reference implementations, py-fsrs and fsrs-rs; checked in tests/published/scheduler.test.ts (the library) and
 * tests/published/schedule.test.ts (this file)
 */
import { default_maximum_interval, default_w, fsrs, FSRSVersion, Rating, type FSRS, type Grade } from 'ts-fsrs';
import type { Recall } from '#shared/marking/recall.ts';
import { dayOf, startOfDay } from './learner-day.ts';
import { defaultRetention, defaultZone, type Memory, type Scheduler } from './memory.ts';
import type { Review, SkillId } from '../skill.ts';

/** To be changed with the way in which recalls become grades, so that kept states are made again. */
const gradingVersion = 1;

/** Names the library, its memory model and our grading. */
export const schedulerVersion = `ts-fsrs ${FSRSVersion}, grading ${gradingVersion}`;

/** The scheduler for somebody of whom nothing is known: the model's own parameters. */
export const defaultScheduler: Scheduler = {
	version: schedulerVersion,
	parameters: [...default_w],
	retention: defaultRetention,
	zone: defaultZone
};

const models = new WeakMap<readonly number[], FSRS>();

/** @throws RangeError unless the parameters are the model's 21 numbers */
function modelOf(parameters: readonly number[]): FSRS {
	const kept = models.get(parameters);
	if (kept) return kept;
	if (parameters.length !== default_w.length || !parameters.every(Number.isFinite))
		throw new RangeError(`${default_w.length} numbers are expected as parameters, not ${parameters.join(', ')}`);
	const model = fsrs({ w: [...parameters], enable_fuzz: false, enable_short_term: true, learning_steps: [], relearning_steps: [] });
	models.set(parameters, model);
	return model;
}

/** The grade of a recall, given how the skill was shown the time before. */
function gradeOf(recall: Recall, before: Recall | undefined): Grade {
	switch (recall) {
		case 'lost':
			return Rating.Again;
		case 'laboured':
			return Rating.Hard;
		case 'sound':
			return Rating.Good;
		case 'fluent':
			return before === 'fluent' ? Rating.Easy : Rating.Good;
	}
}

/** The library's grades, 1 to 4, of a skill's recalls in the order in which they were shown: what its parameters are fitted to. */
export function gradesOf(recalls: readonly Recall[]): number[] {
	return recalls.map((recall, index) => gradeOf(recall, recalls[index - 1]));
}

/** What a review does to a memory, without dates. */
export type Strength = Pick<Memory, 'stability' | 'difficulty' | 'shown'>;

/**
 * One review.
 * @param before null for a skill never shown
 * @param days   whole days of the learner since the review before, >= 0; of no account for the first
 * @throws RangeError if days are not a whole number >= 0, or the parameters are not 21 numbers
 */
export function strengthAfter(before: Strength | null, days: number, recall: Recall, parameters: readonly number[]): Strength {
	if (!Number.isSafeInteger(days) || days < 0) throw new RangeError(`whole days, 0 or more, are expected, not ${days}`);
	const state = before && { stability: before.stability, difficulty: before.difficulty };
	const { stability, difficulty } = modelOf(parameters).next_state(state, days, gradeOf(recall, before?.shown));
	return { stability, difficulty, shown: recall };
}

/**
 * Recall after a time.
 * @param days      since the skill was shown, >= 0
 * @param stability [days]
 * @returns 0 to 1
 */
export function recallAfter(days: number, stability: number, parameters: readonly number[]): number {
	return modelOf(parameters).forgetting_curve(Math.max(0, days), stability);
}

/**
 * Whole days until recall falls to what is desired, at least one.
 *
 * I = (S / F) (r^(-1/w20) - 1)
 * @param retention above 0, up to 1
 * @throws RangeError for a retention outside of it
 */
export function intervalDays(stability: number, retention: number, parameters: readonly number[]): number {
	if (!(retention > 0 && retention <= 1)) throw new RangeError(`a recall above 0 and up to 1 is expected, not ${retention}`);
	const model = modelOf(parameters);
	const days = Math.round(stability * model.calculate_interval_modifier(retention));
	return Math.min(Math.max(1, days), default_maximum_interval);
}

/**
 * What is remembered of a skill after one more review. From a kept memory it gives what the whole log would.
 * @param before null where the skill was never shown
 * @throws RangeError for a review earlier than the one before: the log is to be read again from its beginning
 */
export function memoryAfter(before: Memory | null, review: Review, scheduler: Scheduler): Memory {
	const { zone, parameters, retention } = scheduler;
	if (before && review.at < before.last) throw new RangeError(`a review at ${review.at} comes after one at ${before.last}`);
	const day = dayOf(review.at, zone);
	const strength = strengthAfter(before, before ? day - dayOf(before.last, zone) : 0, review.recall, parameters);
	return {
		skill: review.skill,
		...strength,
		last: review.at,
		due: startOfDay(day + intervalDays(strength.stability, retention, parameters), zone),
		reviews: (before?.reviews ?? 0) + 1,
		lapses: (before?.lapses ?? 0) + (before && review.recall === 'lost' ? 1 : 0)
	};
}

/**
 * What is remembered of every skill in a log.
 * @param log in any order; of reviews at the same instant the one listed first counts as first
 */
export function remember(log: readonly Review[], scheduler: Scheduler): Map<SkillId, Memory> {
	const memories = new Map<SkillId, Memory>();
	for (const review of log.toSorted((a, b) => a.at - b.at)) {
		memories.set(review.skill, memoryAfter(memories.get(review.skill) ?? null, review, scheduler));
	}
	return memories;
}

/** Recall of a skill at an instant, 0 to 1; it falls from day to day of the learner. */
export function recallAt(memory: Memory, at: number, { zone, parameters }: Scheduler): number {
	return recallAfter(dayOf(at, zone) - dayOf(memory.last, zone), memory.stability, parameters);
}

export function isDue(memory: Pick<Memory, 'due'>, at: number): boolean {
	return at >= memory.due;
}
