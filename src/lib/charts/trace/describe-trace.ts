/** A trace in one sentence, for whoever does not see the picture and as a check on whoever does. */
import type { Line, RunTrace } from '#shared/callout/state.ts';
import { corners } from './simplify';
import { nameOf, partsOf, secondsText, spansOf, stepOf, valueText } from './trace-parts';

/** Less than this share of all that a line went through is not spoken of. */
const spokenShare = 0.06;
/** A line that turns more often than this is said to go up and down. */
const mostMoves = 4;
/** The end of the run stands for moves that end this near to it, as a share of the run. */
const endShare = 0.02;
/** A pause on the way, or before setting out, shorter than this share of the run is not spoken of. */
const pauseShare = 0.05;

/** @returns for example `Fan speed rises to 100 % at 26 s, winds down to 60 % at 84 s and stays there; burner lit from 6 s to the end.` */
export function describeTrace(trace: RunTrace): string {
	const { states } = partsOf(trace);
	const said = trace.lines.map((line, i) => (states.includes(i) ? stateWords(line, trace.seconds) : levelWords(line, trace.seconds)));
	return `${said.map((words, i) => (i === 0 ? words : words.charAt(0).toLowerCase() + words.slice(1))).join('; ')}.`;
}

function stateWords(line: Line, seconds: readonly number[]): string {
	const name = nameOf(line);
	const end = seconds.at(-1) ?? 0;
	const spans = spansOf(seconds, line.values);
	const [first] = spans;
	if (!first) return `${name}: at no time`;
	const last = spans.at(-1)!;
	const untilEnd = last.to >= end && line.values.at(-1) === 1;
	if (spans.length > 1) {
		const total = spans.reduce((sum, { from, to }) => sum + to - from, 0);
		return `${name}: ${times(spans.length)}, first at ${secondsText(first.from)}, ${secondsText(total)} in all, ${untilEnd ? 'and so' : 'but not'} at the end`;
	}
	if (untilEnd) return first.from === seconds[0] ? `${name}: throughout` : `${name}: from ${secondsText(first.from)} to the end`;
	return `${name}: from ${secondsText(first.from)} to ${secondsText(first.to)}`;
}

const times = (count: number): string => (count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`);

interface Move {
	readonly way: 'up' | 'down' | 'still';
	readonly from: number;
	readonly to: number;
}

function levelWords(line: Line, seconds: readonly number[]): string {
	const { values } = line;
	const name = nameOf(line);
	const text = (value: number) => valueText(line, value);
	const low = Math.min(...values);
	const high = Math.max(...values);
	if (low === high) return `${name} stays at ${text(low)}`;
	if (high - low <= stepOf(values) + 1e-9) return `${name} stays between ${text(low)} and ${text(high)}`;
	const moves = movesOf(seconds, values);
	const turns = moves.filter(({ way }) => way !== 'still');
	if (turns.length > mostMoves) {
		const ups = turns.filter(({ way }) => way === 'up').length;
		return `${name} goes up and down ${times(ups)} between ${text(low)} and ${text(high)}, ends at ${text(values.at(-1)!)}`;
	}
	return `${name} ${moves.flatMap((_, i) => moveWords(line, seconds, moves, i)).join(', ')}`.replace(/, and /g, ' and ');
}

/** Stretches in which a line goes one way, small waverings apart. */
function movesOf(seconds: readonly number[], values: readonly number[]): Move[] {
	const small = Math.max(stepOf(values), spokenShare * (Math.max(...values) - Math.min(...values)));
	const bends = corners(seconds, values, small);
	const moves: Move[] = [];
	for (let i = 1; i < bends.length; i++) {
		const [from, to] = [bends[i - 1], bends[i]];
		const change = values[to] - values[from];
		const way = Math.abs(change) <= small ? 'still' : change > 0 ? 'up' : 'down';
		const last = moves.at(-1);
		if (last?.way === way) moves[moves.length - 1] = { way, from: last.from, to };
		else moves.push({ way, from, to });
	}
	const short = ({ way, from, to }: Move) => way === 'still' && seconds[to] - seconds[from] < pauseShare * (seconds.at(-1)! - seconds[0]);
	return withoutPauses(moves, short);
}

/** Moves with short rests left out: what went the same way before and after is one move, and nothing is said of a rest at the start. */
function withoutPauses(moves: readonly Move[], short: (move: Move) => boolean): Move[] {
	const kept: Move[] = [];
	moves.forEach((move, i) => {
		if (i < moves.length - 1 && short(move)) return;
		const last = kept.at(-1);
		if (last?.way === move.way) kept[kept.length - 1] = { ...last, to: move.to };
		else kept.push(move);
	});
	return kept;
}

function moveWords(line: Line, seconds: readonly number[], moves: readonly Move[], i: number): string[] {
	const { values } = line;
	const text = (place: number) => valueText(line, values[place]);
	const { way, from, to } = moves[i];
	const end = values.length - 1;
	const atEnd = seconds[end] - seconds[to] <= endShare * (seconds[end] - seconds[0]);
	const ending = values[end] === values[from] ? [] : [`ends at ${text(end)}`];
	if (way === 'still') {
		if (i === 0) return [`stays at about ${text(from)} until ${secondsText(seconds[to])}`];
		return i === moves.length - 1 ? ['and stays there', ...ending] : [];
	}
	const verb = way === 'up' ? 'rises' : line.signal.startsWith('fan') ? 'winds down' : 'falls';
	const since = i > 0 && moves[i - 1].way === 'still' ? ` from ${secondsText(seconds[from])}` : '';
	const began = i === 0 && values[from] !== 0 ? ` from ${text(from)}` : '';
	if (atEnd && i === moves.length - 1) return [`${verb}${began}${since}`, `ends at ${text(end)}`];
	return [`${verb}${began}${since} to ${text(to)} at ${secondsText(seconds[to])}`];
}
