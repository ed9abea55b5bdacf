/** A sum as a drill: asked, judged, worked. */
import { chance } from '#shared/quantity/random.ts';
import { decimalsOf, formatNumber } from '#shared/quantity/format.ts';
import type { Answer, Asking, Choice, Drill, Generator, Given, Judged } from '../drill.ts';
import { shuffled } from '../draw.ts';
import { readFigure, type Figure } from '../figures.ts';
import { recallOf, type Outcome } from '../pace.ts';
import { inUnit } from '../written-units.ts';
import { coarsely, problemOf, shown, type Problem } from './problem.ts';
import type { Sum } from './sum.ts';

/** What a figure is worth, and the misconception that gives it, if any. */
interface Verdict {
	readonly outcome: Outcome;
	readonly misconception: string | null;
}

const right: Verdict = { outcome: 'right', misconception: null };

export function sumGenerator(sum: Sum): Generator {
	return { id: sum.id, drill: sum.drill, needs: 'nothing', make: (_ground, seed) => drillOf(problemOf(sum, seed), seed) };
}

function drillOf(problem: Problem, seed: number): Drill {
	const { sum, unit } = problem;
	const choices = sum.asked === 'one' ? choicesOf(problem, seed) : null;
	const asking: Asking =
		choices === null ? { kind: 'figure', units: sum.units } : { kind: 'one', choices: choices.map(({ id, says }) => ({ id, says })) };
	return {
		question: { drill: sum.drill, family: null, asks: sum.asks, given: givensOf(problem), asking },
		judge(answer: Answer, seconds: number) {
			const verdict = choices === null ? judgeWritten(problem, answer) : judgeChosen(choices, answer);
			if ('refused' in verdict) return verdict;
			const correct = shown(problem.answer, unit);
			return {
				right: verdict.outcome === 'right',
				recall: recallOf(verdict.outcome, seconds, sum.pace),
				answer: [correct],
				worked: sum.worked(problem.given, correct),
				misconception: verdict.misconception
			} satisfies Judged;
		}
	};
}

function givensOf({ sum, given }: Problem): Given[] {
	return Object.entries(sum.given).map(([key, { name, unit, step }]) => ({
		name,
		value: `${formatNumber(given[key] as number, decimalsOf(step))} ${unit}`.trimEnd()
	}));
}

function judgeWritten(problem: Problem, answer: Answer): Verdict | { readonly refused: string } {
	const read = readFigure('written' in answer ? answer.written : '', problem.sum.units);
	if ('refused' in read) return read;
	// Where a comma may mean two things, the learner gets the better of them.
	const offBy = ({ number, unit }: Figure) => Math.abs(inUnit(number, unit, problem.unit) - problem.answer);
	return judgeFigure(
		problem,
		read.figures.reduce((best, one) => (offBy(one) < offBy(best) ? one : best))
	);
}

function judgeFigure(problem: Problem, figure: Figure): Verdict {
	const value = inUnit(figure.number, figure.unit, problem.unit);
	const off = Math.abs(value - problem.answer);
	if (off <= problem.rightWithin) return right;
	if (off <= problem.nearlyWithin || isSame(figure.number, coarsely(problem, figure.unit)))
		return { outcome: 'nearly', misconception: null };
	return { outcome: 'wrong', misconception: misconceptionOf(problem, value) };
}

/** The nearest misconception whose result this is within rounding. */
function misconceptionOf({ misconceptions }: Problem, value: number): string | null {
	const fitting = misconceptions.filter((one) => Math.abs(one.value - value) <= one.within);
	fitting.sort((a, b) => Math.abs(a.value - value) - Math.abs(b.value - value));
	return fitting[0]?.says ?? null;
}

const isSame = (one: number, other: number | null): boolean => other !== null && Math.abs(one - other) <= 1e-9 * Math.abs(other);

/** The answer and what three misconceptions give, shuffled; the ids tell nothing. */
function choicesOf(problem: Problem, seed: number): (Choice & Verdict)[] {
	const verdicts: { value: number; verdict: Verdict }[] = [
		{ value: problem.answer, verdict: right },
		...problem.misconceptions.slice(0, 3).map(({ value, says }) => ({ value, verdict: { outcome: 'wrong' as const, misconception: says } }))
	];
	return shuffled(chance(seed, problem.sum.id, 'order'), verdicts).map(({ value, verdict }, index) => ({
		id: 'abcd'[index] as string,
		says: shown(value, problem.unit),
		...verdict
	}));
}

function judgeChosen(choices: readonly (Choice & Verdict)[], answer: Answer): Verdict | { readonly refused: string } {
	const chosen = 'chosen' in answer ? answer.chosen : [];
	const found = choices.find(({ id }) => id === chosen[0]);
	if (chosen.length !== 1 || found === undefined) return { refused: 'One of the four is expected.' };
	return { outcome: found.outcome, misconception: found.misconception };
}
