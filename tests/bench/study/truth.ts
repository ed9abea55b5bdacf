/**
 * Three ways in which a simulated learner's memory may really work. Only the first is the scheduler's own, so that a schedule cannot win by
 * agreeing with itself. Figures without a source are invented; the three are set so that in each about seven in ten are recalled a week
 * after the first showing.
 */
import type { Recall } from '#shared/marking/recall.ts';
import { chance } from '#shared/quantity/random.ts';
import { withinBounds } from '#shared/review/fitting/bounds.ts';
import { defaultScheduler, strengthAfter, type Strength } from '#shared/review/memory/schedule.ts';

/** One skill in one simulated head. Days are whole. */
export interface SkillMemory {
	/** Chance of success on a day, before it is shown on that day; 0 where it was never shown. */
	recall(day: number): number;
	shown(day: number, recall: Recall): void;
}

export interface Truth {
	readonly id: 'fsrs' | 'activation' | 'half-life';
	readonly says: string;
	/** The memory of a skill of a learner; learners and skills differ. */
	memory(seed: number, learner: number, skill: number): SkillMemory;
}

/** Every learner's parameters stray from the published ones by a log-normal factor: the first four by 0.5, the others by 0.2. */
export function jitteredParameters(seed: number, learner: number): number[] {
	const draw = chance(seed, 'parameters', learner);
	return withinBounds(defaultScheduler.parameters.map((value, i) => value * Math.exp((i < 4 ? 0.5 : 0.2) * draw.normal())));
}

/** A memory that follows FSRS-6 under given parameters. */
export function fsrsMemory(parameters: readonly number[]): SkillMemory {
	let strength: Strength | null = null;
	let last = 0;
	// The published curve, written out here because it is asked for millions of times.
	const fall = -parameters[20]!;
	const factor = 0.9 ** (1 / fall) - 1;
	return {
		recall: (day) => (strength ? (1 + (factor * (day - last)) / strength.stability) ** fall : 0),
		shown(day, recall) {
			strength = strengthAfter(strength, strength ? day - last : 0, recall, parameters);
			last = day;
		}
	};
}

let latest: { key: string; parameters: number[] } | undefined;

const fsrs: Truth = {
	id: 'fsrs',
	says: 'FSRS-6, each learner with parameters that stray from the published ones',
	memory(seed, learner) {
		const key = `${seed} ${learner}`;
		if (latest?.key !== key) latest = { key, parameters: jitteredParameters(seed, learner) };
		return fsrsMemory(latest.parameters);
	}
};

/**
 * m = ln(sum of t^-d over all showings, t days ago), recall = 1 / (1 + exp((tau - m) / s)), d = 0.5 (the usual value, *from memory*). A failure
 * is a showing too, since its debrief is read. tau -1.35 on the average, straying by 0.3 between learners and 0.3 between skills; s 0.4.
 * @see Anderson & Schooler 1991, Psychological Science 2 (from memory)
 */
const activation: Truth = {
	id: 'activation',
	says: 'each showing leaves a trace that fades as the square root of time, and traces add up',
	memory(seed, learner, skill) {
		const tau = -1.35 + 0.3 * chance(seed, 'tau', learner).normal() + 0.3 * chance(seed, 'tau', learner, skill).normal();
		const showings: number[] = [];
		return {
			recall(day) {
				if (showings.length === 0) return 0;
				let sum = 0;
				for (const shown of showings) sum += 1 / Math.sqrt(day - shown);
				return 1 / (1 + Math.exp((tau - Math.log(sum)) / 0.4));
			},
			shown: (day) => void showings.push(day)
		};
	}
};

/**
 * recall = 2^(-t/h). A success doubles the half-life h, however soon it came; a failure halves it, to half a day at least. h begins at 14 days,
 * straying by a factor of e^0.4 between learners and again between skills.
 */
const halfLife: Truth = {
	id: 'half-life',
	says: 'a success doubles the time in which recall falls to a half, a failure halves it',
	memory(seed, learner, skill) {
		let halfLifeDays =
			14 * Math.exp(0.4 * chance(seed, 'half-life', learner).normal() + 0.4 * chance(seed, 'half-life', learner, skill).normal());
		let last: number | null = null;
		return {
			recall: (day) => (last === null ? 0 : 2 ** (-(day - last) / halfLifeDays)),
			shown(day, recall) {
				if (last !== null) halfLifeDays = recall === 'lost' ? Math.max(0.5, halfLifeDays / 2) : halfLifeDays * 2;
				last = day;
			}
		};
	}
};

export const truths: readonly Truth[] = [fsrs, activation, halfLife];
