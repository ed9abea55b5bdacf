/** The simulated learners of the study: each truth follows its formula, and the study is a function of its seed. */
import { describe, expect, it } from 'vitest';
import { recallAfter, strengthAfter } from '#shared/review/memory/schedule.ts';
import { simulatedLearner, skills } from '../../bench/study/learner.ts';
import { fixedPolicies, publishedMemory } from '../../bench/study/policy.ts';
import { fullSize, runStudy, type StudySize } from '../../bench/study/study.ts';
import { fsrsMemory, jitteredParameters, truths } from '../../bench/study/truth.ts';
import { within } from '../../published/within.ts';

const truth = (id: (typeof truths)[number]['id']) => truths.find((one) => one.id === id)!;

describe('memory', () => {
	it('of the scheduler’s own model fades as the scheduler says under the same parameters', () => {
		const parameters = jitteredParameters(1, 2);
		const memory = fsrsMemory(parameters);
		memory.shown(10, 'sound');
		memory.shown(14, 'lost');
		const strength = strengthAfter(strengthAfter(null, 0, 'sound', parameters), 4, 'lost', parameters);
		for (const days of [1, 3, 30, 300])
			within(memory.recall(14 + days), recallAfter(days, strength.stability, parameters), 1e-7, `${days} days`);
	});
	it('of the activation model is the odds of its traces', () => {
		const [once, twice] = [0, 0].map(() => truth('activation').memory(1, 2, 3));
		once!.shown(0, 'lost');
		twice!.shown(0, 'sound');
		twice!.shown(5, 'sound');
		const odds = (p: number) => Math.log(p / (1 - p));
		// s = 0.4: a difference of m is 0.4 times the difference of the log odds.
		within(0.4 * (odds(once!.recall(4)) - odds(once!.recall(16))), Math.log(1 / 2) - Math.log(1 / 4), 1e-9, 'one trace');
		within(0.4 * (odds(twice!.recall(9)) - odds(once!.recall(9))), Math.log(1 / 3 + 1 / 2) - Math.log(1 / 3), 1e-9, 'two traces');
	});
	it('of half-lives doubles them on success and halves them on failure', () => {
		const memory = truth('half-life').memory(1, 2, 3);
		memory.shown(0, 'sound');
		const halfLife = () => -1 / Math.log2(memory.recall(11) / memory.recall(10));
		const begin = halfLife();
		memory.shown(3, 'sound');
		within(halfLife(), 2 * begin, 1e-6, 'after a success');
		memory.shown(6, 'lost');
		within(halfLife(), begin, 1e-6, 'after a failure');
	});
	it('is about 0.7 a week after the first showing in each, over learners and skills', () => {
		for (const { id, memory } of truths) {
			let sum = 0;
			for (let learner = 0; learner < 500; learner++) {
				const one = memory(7, learner, learner % skills);
				expect(one.recall(3)).toBe(0);
				one.shown(0, learner % 10 < 4 ? 'lost' : 'sound');
				sum += one.recall(7);
			}
			within(sum / 500, 0.7, 0.05, id);
		}
	});
});

describe('a simulated learner', () => {
	it('keeps to the minutes, begins no more than two skills an evening, and knows no more than there is', () => {
		for (const policy of [publishedMemory(0.85), ...fixedPolicies]) {
			const learner = simulatedLearner(truth('fsrs'), policy, 1, 1, 10);
			for (let day = 1; day <= 60; day++) {
				const before = learner.begun();
				learner.until(day);
				expect(learner.begun() - before).toBeLessThanOrEqual(2);
			}
			// What is begun is finished: at worst a callout that was to take 4.5 minutes is lost and takes 8.
			expect(Math.max(...learner.minutes)).toBeLessThanOrEqual(10 + 3.5);
			expect(Math.max(...learner.known)).toBeLessThanOrEqual(learner.begun());
		}
	});
	it('has under another schedule with the same intervals the same luck', () => {
		const sevens = () =>
			simulatedLearner(
				truth('half-life'),
				fixedPolicies.find(({ id }) => id === 'every 7')!,
				3,
				4,
				20
			);
		const [one, other] = [sevens(), sevens()];
		one.until(50);
		for (let day = 0; day <= 50; day += 5) other.until(day);
		expect(other.known).toEqual(one.known);
	});
});

it('is a function of its seed', async () => {
	const small: StudySize = { ...fullSize, learners: 4, cohort: 4, days: 45, fitOn: [30], budgets: [10] };
	const [one, same] = [await runStudy(small, null), await runStudy(small, null)];
	expect(same).toEqual(one);
	expect(await runStudy({ ...small, seed: 1 }, null)).not.toEqual(one);
	expect(one.map((cell) => cell.truth)).toEqual(['fsrs', 'activation', 'half-life']);
	for (const { rows } of one) expect(new Set(rows.map(({ policy }) => policy)).size).toBe(8);
});
