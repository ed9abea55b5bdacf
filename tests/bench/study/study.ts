/** Which schedule is best, on simulated learners: every truth, two budgets, every schedule, the same learners and the same luck. */
import { fitTo, type Fit, type Optimiser, type Standing } from '#shared/review/fitting/fit.ts';
import { lossOf } from '#shared/review/fitting/trail.ts';
import { defaultScheduler } from '#shared/review/memory/schedule.ts';
import { simulatedLearner, type SimulatedLearner } from './learner.ts';
import { fittedMemory, fixedPolicies, publishedMemory, type Policy } from './policy.ts';
import { truths, type Truth } from './truth.ts';

export interface StudySize {
	readonly learners: number;
	readonly days: number;
	/** Days on which the scheduler is fitted to what is in the log by then; predictions are judged from the first on. */
	readonly fitOn: readonly number[];
	/** The common fit is made from the logs of so many of them, for speed. */
	readonly cohort: number;
	/** Minutes of an evening. */
	readonly budgets: readonly number[];
	readonly seed: number;
}

export const fullSize: StudySize = { learners: 200, days: 180, fitOn: [45, 90, 135], cohort: 40, budgets: [10, 20], seed: 20_260_105 };

/** A mean over learners with half the width of its 95 % interval. */
export interface Estimate {
	readonly mean: number;
	readonly half: number;
}

export interface PolicyRow {
	readonly policy: string;
	/** Skills known, mean over all days: the sum of the chances of success. */
	readonly known: Estimate;
	readonly minutesADay: number;
	/** Skills known, mean over all days, for each minute of practice a day. */
	readonly knownPerMinute: number;
	/** 30 and 180 days after the last evening, without practice. */
	readonly after30: number;
	readonly after180: number;
	readonly begun: number;
	/** Of each learner, for paired comparison. */
	readonly knownOf: readonly number[];
	/** Log loss from the day of the fit on; null where the schedule foretells nothing. */
	readonly loss: number | null;
	/** Of the learners' own averages before that day, over the same reviews. */
	readonly averageLoss: number | null;
}

export interface Cell {
	readonly truth: Truth['id'];
	readonly budget: number;
	readonly rows: readonly PolicyRow[];
	/** Of the schedule that is fitted at the product's own desired recall. */
	readonly fit: FitNote;
}

/** Desired recall of the fitted schedules; the product's own is among them. */
export const retentions = [0.7, defaultScheduler.retention, 0.95] as const;

/** What came of the last fit in a cell. */
export interface FitNote {
	readonly items: number;
	/** Held-out log loss of what was in force and of the common fit, and whether it was kept. */
	readonly before: number;
	readonly after: number;
	readonly extent: string;
	readonly chosen: string;
	/** Learners who have parameters of their own in force. */
	readonly own: number;
}

export async function runStudy(size: StudySize, optimiser: Optimiser | null): Promise<Cell[]> {
	const cells: Cell[] = [];
	for (const truth of truths) for (const budget of size.budgets) cells.push(await runCell(truth, budget, size, optimiser));
	return cells;
}

async function runCell(truth: Truth, budget: number, size: StudySize, optimiser: Optimiser | null): Promise<Cell> {
	const everyone = Array.from({ length: size.learners }, (_, n) => n);
	const begin = (policy: Policy) => everyone.map((n) => simulatedLearner(truth, policy, size.seed, n, budget));

	const rows: PolicyRow[] = [];
	let note: FitNote | undefined;
	for (const retention of retentions) {
		const learners = begin(publishedMemory(retention));
		const { policy, fit } = await refitting(learners, retention, size, optimiser);
		if (retention === defaultScheduler.retention) note = fit;
		rows.push(finish(learners, policy, size));
	}
	for (const policy of [publishedMemory(defaultScheduler.retention), ...fixedPolicies]) rows.push(finish(begin(policy), policy, size));
	return { truth: truth.id, budget, rows, fit: note! };
}

/** By the product's own rules: everyone's fit, then each learner's own where it foretells their held-out reviews better. */
async function refitting(
	learners: readonly SimulatedLearner[],
	retention: number,
	{ fitOn, cohort }: StudySize,
	optimiser: Optimiser | null
) {
	const published = defaultScheduler.parameters;
	let common = published;
	let fit: FitNote | undefined;
	const own = learners.map((): readonly number[] | null => null);
	const policy = fittedMemory(retention, (learner) => own[learner] ?? common);
	for (const day of fitOn) {
		for (const learner of learners) learner.until(day);
		const logs = learners.slice(0, cohort).flatMap((learner) => learner.trails());
		const tried = await fitTo(logs, { fallback: published, inForce: common }, optimiser);
		if (!tried) throw new Error('too few reviews for a fit: the study is too small');
		common = chosen(tried, { fallback: published, inForce: common });
		for (const [n, learner] of learners.entries()) {
			const standing = { fallback: common, inForce: own[n] ?? common };
			const alone = await fitTo(learner.trails(), standing, optimiser);
			const parameters = alone ? chosen(alone, standing) : common;
			own[n] = parameters === common ? null : parameters;
		}
		fit = { ...tried, own: own.filter((one) => one !== null).length };
		for (const learner of learners) learner.take(policy);
	}
	return { policy, fit: fit! };
}

const chosen = (fit: Fit, { fallback, inForce }: Standing): readonly number[] =>
	({ fit: fit.parameters, 'in-force': inForce, fallback })[fit.chosen];

function finish(learners: readonly SimulatedLearner[], policy: Policy, { days, fitOn }: StudySize): PolicyRow {
	for (const learner of learners) learner.until(days);
	const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
	const knownOf = learners.map(({ known }) => mean(known));
	const minutesADay = mean(learners.map(({ minutes }) => mean(minutes)));
	return {
		policy: policy.id,
		known: estimate(knownOf),
		minutesADay,
		knownPerMinute: mean(knownOf) / minutesADay,
		after30: mean(learners.map((learner) => learner.knownOn(days + 30))),
		after180: mean(learners.map((learner) => learner.knownOn(days + 180))),
		begun: mean(learners.map(({ begun }) => begun())),
		knownOf,
		...losses(learners, fitOn[0]!)
	};
}

export function estimate(values: readonly number[]): Estimate {
	const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
	const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
	return { mean, half: 1.96 * Math.sqrt(variance / values.length) };
}

function losses(learners: readonly SimulatedLearner[], from: number): Pick<PolicyRow, 'loss' | 'averageLoss'> {
	const foretold: { predicted: number; average: number; kept: boolean }[] = [];
	for (const { outcomes } of learners) {
		const early = outcomes.filter(({ day }) => day < from);
		const average = (early.filter((one) => one.kept).length + 1) / (early.length + 2);
		for (const { day, predicted, kept } of outcomes) if (day >= from && predicted !== null) foretold.push({ predicted, average, kept });
	}
	if (foretold.length === 0) return { loss: null, averageLoss: null };
	return { loss: lossOf(foretold), averageLoss: lossOf(foretold.map(({ average, kept }) => ({ predicted: average, kept }))) };
}
