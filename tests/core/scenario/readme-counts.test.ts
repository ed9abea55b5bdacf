import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { stock } from '../../sampled.ts';

const readme = readFileSync('README.md', 'utf8');

it.each(stock)('tells in the README what the pack of $id holds', ({ pack: { family, faults, checks, parts, remedies } }) => {
	const row = readme.split('\n').find((line) => line.startsWith(`| ${family.name} |`));
	expect(row?.split('|').slice(2, -1).map(Number)).toEqual([
		faults.length,
		faults.filter(({ area }) => area === 'user').length,
		checks.length,
		parts.length,
		remedies.filter(({ kind }) => kind !== 'fit').length
	]);
});

it('tells in the README under how many demands checks are taken', () => {
	const [, most] = /under up to (\w+) demands/.exec(readme) ?? [];
	const written = ['no', 'one', 'two', 'three', 'four', 'five', 'six'];
	expect(written.indexOf(most!)).toBe(Math.max(...stock.flatMap(({ pack }) => pack.checks.map(({ under }) => under.length))));
});

it('tells in the README of no family that is not in stock', () => {
	const rows = readme.split('\n').filter((line) => /^\| [^|]+( \| \d+){5} \|$/.test(line));
	expect(rows).toHaveLength(stock.length);
});
