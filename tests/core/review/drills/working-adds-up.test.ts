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

describe('the working of every sum adds up, line by line', () => {
	it.each(sums.map((sum) => [sum.id, sum] as const))('%s', (_id, sum) => {
		const wrong: string[] = [];
		for (let seed = 0; seed < 100; seed++) {
			const problem = problemOf(sum, seed);
			const lines = sum.worked(problem.given, shown(problem.answer, problem.unit));
			let reckonedLines = 0;
			for (const line of lines) {
				for (const { left, right } of equations(line)) {
					const value = reckoned(left);
					if (value === null) continue;
					reckonedLines++;
					const decimals = right.split('.')[1]?.length ?? 0;
					// Half of its last figure, and what three steps rounded to four figures can bring; a difference of near numbers brings more.
					const allowed = 0.5 * 10 ** -decimals + 0.0015 * Math.abs(value) + (left.includes('(1.0') ? 0.003 * Math.abs(value) : 0);
					if (Math.abs(value - Number(right)) > allowed) wrong.push(`seed ${seed}: ${line}: ${left} is ${value}`);
				}
			}
			// The fuse is picked from a list in its last line; every other sum ends in a reckoning.
			if (reckonedLines < Math.min(2, lines.length - 1)) wrong.push(`seed ${seed}: too little is reckoned in ${lines.join(' | ')}`);
		}
		expect(wrong).toEqual([]);
	});

	it('would catch a line that does not', () => {
		expect(equations('12 l/min x 4.19 x 30 / 60 s = 25.1 kW').map(({ left, right }) => [reckoned(left), right])).toEqual([
			[(12 * 4.19 * 30) / 60, '25.1']
		]);
		expect(reckoned('2 x (3 + 4) / root 4')).toBe(7);
		expect(reckoned('3750 x -0.5')).toBe(-1875);
		expect(reckoned('two and 2')).toBeNull();
	});
});
