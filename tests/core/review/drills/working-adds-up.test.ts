import { describe, expect, it } from 'vitest';
import { sums } from '#shared/review/drills/sums/index.ts';
import { problemOf, shown } from '#shared/review/drills/sums/problem.ts';

/** A sum as it is written on paper: + - x / and brackets, `root` before a number; null where it is none. */
function reckoned(text: string): number | null {
	const tokens = text.match(/root|\d+(?:\.\d+)?|[-+x/()]/g) ?? [];
	if (tokens.join('') !== text.replace(/\s/g, '')) return null;
	let at = 0;
	const factor = (): number => {
		const token = tokens[at++];
		if (token === '(') {
			const inner = sum();
			at++;
			return inner;
		}
		if (token === '-') return -factor();
		return token === 'root' ? Math.sqrt(factor()) : Number(token);
	};
	const product = (): number => {
		let value = factor();
		while (tokens[at] === 'x' || tokens[at] === '/') value = tokens[at++] === 'x' ? value * factor() : value / factor();
		return value;
	};
	const sum = (): number => {
		let value = product();
		while (tokens[at] === '+' || tokens[at] === '-') value = tokens[at++] === '+' ? value + product() : value - product();
		return value;
	};
	const value = sum();
	return at === tokens.length ? value : null;
}

const units = String.raw`MJ\/m3|MJ\/h|m3\/h|bar\/m|l\/min|kg\/h|mbar|kW|kJ|m3|ft3|bar|ohm|mm|min|%|W|V|A|K|l|m|s`;

/** What is left and right of each equals sign of a line, units and words before a colon taken away; `squared` and `root` after a comma too. */
function equations(line: string): { left: string; right: string }[] {
	const found: { left: string; right: string }[] = [];
	for (const part of line.split(/: |\. /)) {
		const [left, right] = part.split(' = ');
		if (left === undefined || right === undefined) continue;
		found.push({
			left: left.replace(new RegExp(`(?<=[\\d)] )(${units})(?= |$)`, 'g'), ''),
			right: /^-?\d+(\.\d+)?/.exec(right)?.[0] ?? ''
		});
		const after = /^(-?\d+(?:\.\d+)?), (squared|its root) (\d+(?:\.\d+)?)/.exec(right);
		if (after) found.push({ left: after[2] === 'squared' ? `${after[1]} x ${after[1]}` : `root ${after[1]}`, right: after[3] as string });
	}
	return found;
}

/** As an answer is written: to three figures, from 1000 on to four. */
const asAnswer = (value: number): number => Number(value.toPrecision(Math.abs(value) >= 1000 ? 4 : 3));

/** What is wrong with a working, the first line of it that does not follow from its own figures. */
function slipIn(lines: readonly string[], answer: string): string | null {
	for (const [index, line] of lines.entries()) {
		const found = equations(line);
		const isLast = index === lines.length - 1;
		for (const [place, { left, right }] of found.entries()) {
			const value = reckoned(left);
			if (value === null) continue;
			const decimals = right.split('.')[1]?.length ?? 0;
			const isAnswer = isLast && place === found.length - 1;
			// A step is written to six figures: half of its last, and what the rounding of the steps before it brings, a difference of near
			// numbers more than others.
			const allowed = 0.5 * 10 ** -decimals + 5e-5 * Math.abs(value);
			const agrees = isAnswer ? asAnswer(value) === Number(right) : Math.abs(value - Number(right)) <= allowed;
			if (!agrees) return `${line}: ${left} is ${value}`;
		}
	}
	const last = lines.at(-1) ?? '';
	return last.endsWith(` = ${answer}`) || last.endsWith(`: ${answer}`) ? null : `${answer} does not end ${last}`;
}

/** Sums whose last line holds no reckoning: the fuse is picked from a list. */
const picked = ['fuse-size'];

describe('the working of every sum adds up, line by line, and its last line gives the answer as it is written', () => {
	it.each(sums.map((sum) => [sum.id, sum] as const))('%s', (id, sum) => {
		const wrong: string[] = [];
		for (let seed = 0; seed < 400; seed++) {
			const problem = problemOf(sum, seed);
			const answer = shown(problem.answer, problem.unit);
			const lines = sum.worked(problem.given, answer);
			const slip = slipIn(lines, answer);
			if (slip !== null) wrong.push(`seed ${seed}: ${slip}`);
			const inLast = equations(lines.at(-1) ?? '').filter(({ left }) => reckoned(left) !== null);
			if (inLast.length === 0 && !picked.includes(id)) wrong.push(`seed ${seed}: nothing is reckoned in ${lines.at(-1)}`);
			const reckonedLines = lines.flatMap(equations).filter(({ left }) => reckoned(left) !== null).length;
			if (reckonedLines < Math.min(2, lines.length - 1)) wrong.push(`seed ${seed}: too little is reckoned in ${lines.join(' | ')}`);
			if (asAnswer(problem.answer) !== Number(answer.split(' ')[0])) wrong.push(`seed ${seed}: ${problem.answer} is written ${answer}`);
		}
		expect(wrong.slice(0, 5)).toEqual([]);
	});

	it.each([
		[['1 + 0.9749 = 1.98'], '1.98'],
		[['4 x 2 = 8 l', '8 l / 3 = 2.66 l'], '2.66 l'],
		[['1 + 0.9749 = 1.97'], '1.98'],
		[['12 l/min x 4.19 = 50.3', '50.3 x 30 / 60 s = 25.2 kW'], '25.2 kW']
	])('would catch %j', (lines, answer) => expect(slipIn(lines, answer)).not.toBeNull());

	it('passes what is right', () => {
		expect(slipIn(['4 x 2 = 8 l', '8 l / 3 = 2.67 l'], '2.67 l')).toBeNull();
		expect(slipIn(['12345 x 2 = 24690 ohm'], '24690 ohm')).toBeNull();
	});

	it('reads a line as it is written', () => {
		expect(equations('12 l/min x 4.19 x 30 / 60 s = 25.1 kW').map(({ left, right }) => [reckoned(left), right])).toEqual([
			[(12 * 4.19 * 30) / 60, '25.1']
		]);
		expect(reckoned('2 x (3 + 4) / root 4')).toBe(7);
		expect(reckoned('3750 x -0.5')).toBe(-1875);
		expect(reckoned('two and 2')).toBeNull();
	});
});
