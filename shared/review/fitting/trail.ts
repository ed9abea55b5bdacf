/** The log as the fit reads it: a trail of reviews for each skill of each learner. */
import type { Recall } from '#shared/marking/recall.ts';
import { recallAfter, strengthAfter, type Strength } from '../memory/schedule.ts';
import type { Review, SkillId } from '../skill.ts';
import { surprise } from './log-loss.ts';

export interface Step {
	/** [ms since 1970] */
	readonly at: number;
	/** Whole days of the learner since the step before; 0 for the first. */
	readonly days: number;
	readonly recall: Recall;
}

/** One skill of one learner, in the order in which it was shown. */
export interface Trail {
	readonly learner: string;
	readonly skill: SkillId;
	readonly steps: readonly Step[];
}

/** Only a review on a later day than the last says anything of forgetting. */
export const isUsable = (step: Step, index: number): boolean => index > 0 && step.days >= 1;

export const usableItems = (trails: readonly Trail[]): number => trails.reduce((sum, { steps }) => sum + steps.filter(isUsable).length, 0);

/**
 * @param log   one learner's, in the order in which it was written
 * @param dayOf the number of the learner's day in which a moment lies
 */
export function trailsOf(learner: string, log: readonly Review[], dayOf: (at: number) => number): Trail[] {
	const bySkill = new Map<SkillId, Step[]>();
	for (const { skill, at, recall } of log) {
		const steps = bySkill.get(skill) ?? [];
		const last = steps.at(-1);
		// A clock that was set back does not make a day less than none.
		steps.push({ at, recall, days: last ? Math.max(0, dayOf(at) - dayOf(last.at)) : 0 });
		bySkill.set(skill, steps);
	}
	return [...bySkill].map(([skill, steps]) => ({ learner, skill, steps }));
}

/** One usable review, with the chance of success that was foretold. */
export interface Foretold {
	readonly learner: string;
	readonly at: number;
	readonly predicted: number;
	readonly kept: boolean;
}

/** Goes along a trail and tells what the scheduler under these parameters would have foretold of each usable review from what came before. */
function follow({ steps }: Trail, parameters: readonly number[], tell: (step: Step, predicted: number) => void): void {
	let strength: Strength | null = null;
	for (const [index, step] of steps.entries()) {
		if (strength && isUsable(step, index)) tell(step, recallAfter(step.days, strength.stability, parameters));
		strength = strengthAfter(strength, step.days, step.recall, parameters);
	}
}

const isKept = ({ recall }: Step): boolean => recall !== 'lost';

/** What the scheduler under these parameters would have foretold of each usable review, knowing only what came before it. */
export function foretell(trails: readonly Trail[], parameters: readonly number[]): Foretold[] {
	const all: Foretold[] = [];
	for (const trail of trails) {
		const { learner } = trail;
		follow(trail, parameters, (step, predicted) => all.push({ learner, at: step.at, predicted, kept: isKept(step) }));
	}
	return all;
}

/** Sum of the surprise at every usable review, for a search that asks for nothing else. */
export function totalSurprise(trails: readonly Trail[], parameters: readonly number[]): number {
	let sum = 0;
	for (const trail of trails) follow(trail, parameters, (step, predicted) => (sum += surprise(predicted, isKept(step))));
	return sum;
}

/** Mean surprise over foretold reviews: 0 is certainty that was always right, ln 2 = 0.693 a coin. Not a number where there are none. */
export const lossOf = (foretold: readonly Pick<Foretold, 'predicted' | 'kept'>[]): number =>
	foretold.reduce((sum, { predicted, kept }) => sum + surprise(predicted, kept), 0) / foretold.length;
