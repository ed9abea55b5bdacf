/** The schedules that are compared: when a skill comes back, and which of those that are due goes first. */
import type { Recall } from '#shared/marking/recall.ts';
import { chance } from '#shared/quantity/random.ts';
import { defaultScheduler, intervalDays, recallAfter, strengthAfter, type Strength } from '#shared/review/memory/schedule.ts';

/** What a schedule keeps of one skill. */
export interface Place {
	/** Day on which it comes back. */
	readonly due: number;
	/** Of two that are due the smaller goes first. */
	urgency(day: number): number;
	/** Foretold chance of success; null where the schedule foretells nothing. */
	foretold(day: number): number | null;
	/** After it was shown. */
	next(day: number, recall: Recall): Place;
}

export interface Policy {
	readonly id: string;
	readonly says: string;
	/** Where a skill stands after its first showing. */
	begin(seed: number, learner: number, skill: number, day: number, recall: Recall): Place;
}

/** Where the memory model puts a skill: under which parameters, and for which desired recall. */
interface Wanted {
	readonly parameters: readonly number[];
	readonly retention: number;
}

/** By the memory model; due first by least recall. */
function memoryPlace(wanted: Wanted, day: number, recall: Recall, before: Strength | null = null, last = day): Place {
	const { parameters, retention } = wanted;
	const strength = strengthAfter(before, day - last, recall, parameters);
	const foretold = (on: number) => recallAfter(on - day, strength.stability, parameters);
	return {
		due: day + intervalDays(strength.stability, retention, parameters),
		urgency: foretold,
		foretold,
		next: (on, shown) => memoryPlace(wanted, on, shown, strength, day)
	};
}

/** By fixed or drawn intervals; what is longest overdue, in proportion to its interval, goes first. */
function intervalPlace(
	day: number,
	step: number,
	intervalOf: (step: number, recall: Recall) => { days: number; step: number },
	recall: Recall
): Place {
	const { days, step: reached } = intervalOf(step, recall);
	return {
		due: day + days,
		urgency: (on) => -(on - day) / days,
		foretold: () => null,
		next: (on, shown) => intervalPlace(on, reached + 1, intervalOf, shown)
	};
}

const ladderDays = [1, 6, 12, 48, 96, 180];

const percent = (retention: number) => `${Math.round(100 * retention)} %`;

/** Under the published parameters, whoever the learner is. */
export const publishedMemory = (retention: number): Policy => ({
	id: `published, ${percent(retention)}`,
	says: `the scheduler under the published parameters, for a recall of ${percent(retention)}`,
	begin: (_seed, _learner, _skill, day, recall) => memoryPlace({ parameters: defaultScheduler.parameters, retention }, day, recall)
});

/** Under parameters that are each learner's own. */
export const fittedMemory = (retention: number, parametersOf: (learner: number) => readonly number[]): Policy => ({
	id: `fitted, ${percent(retention)}`,
	says: `the scheduler, fitted as the product fits it, for a recall of ${percent(retention)}`,
	begin: (_seed, learner, _skill, day, recall) => memoryPlace({ parameters: parametersOf(learner), retention }, day, recall)
});

export const fixedPolicies: readonly Policy[] = [
	{
		id: 'ladder',
		says: `a fixed ladder of ${ladderDays.join(', ')} days, back to its foot after a failure`,
		begin: (_seed, _learner, _skill, day, recall) =>
			intervalPlace(
				day,
				0,
				(step, shown) => {
					const reached = shown === 'lost' ? 0 : Math.min(step, ladderDays.length - 1);
					return { days: ladderDays[reached]!, step: reached };
				},
				recall
			)
	},
	...[7, 30].map((days) => ({
		id: `every ${days}`,
		says: `every ${days} days`,
		begin: (_seed: number, _learner: number, _skill: number, day: number, recall: Recall) =>
			intervalPlace(day, 0, (step) => ({ days, step }), recall)
	})),
	{
		id: 'random',
		says: 'after a number of days drawn evenly from 1 to 30',
		begin(seed, learner, skill, day, recall) {
			const draw = chance(seed, 'random due', learner, skill);
			return intervalPlace(day, 0, (step) => ({ days: draw.whole(1, 30), step }), recall);
		}
	}
];
