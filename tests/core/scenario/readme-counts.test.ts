import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { combi } from '../../sampled.ts';

const readme = readFileSync('README.md', 'utf8').replace(/\s+/g, ' ');

/** The figure that stands before some words, in figures or written out. */
function told(words: RegExp): number {
	const [, figure] = new RegExp(`(\\S+) ${words.source}`).exec(readme) ?? [];
	const written = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
	return written.includes(figure!) ? written.indexOf(figure!) : Number(figure);
}

it('tells in the README what the pack holds', () => {
	const { faults, checks, parts, remedies } = combi;
	expect({
		faults: told(/faults, \S+ of them of use or installation/),
		outside: told(/of them of use or installation/),
		checks: told(/checks under up to/),
		demands: told(/demands, \d+ parts/),
		parts: told(/parts and/),
		others: told(/remedies that are not parts/)
	}).toEqual({
		faults: faults.length,
		outside: faults.filter(({ area }) => area === 'user').length,
		checks: checks.length,
		demands: Math.max(...checks.map(({ under }) => under.length)),
		parts: parts.length,
		others: remedies.filter(({ kind }) => kind !== 'fit').length
	});
});
