import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { counted, playwrightCounts, vitestCounts, vitestParts } from '../../scripts/counts.mjs';
import { freshFolder } from './fresh.ts';

/** A report of vitest in which these parts ran one test each. */
const report = (parts: readonly string[], status = 'passed') => ({
	numPassedTests: parts.length,
	numTotalTests: parts.length,
	testResults: parts.map((part) => ({ name: `/somewhere/tests/${part}/some.test.ts`, assertionResults: [{ status }] }))
});

it('counts what passed and what did not', () => {
	expect(counted(true, () => vitestCounts(report(vitestParts)))).toEqual({ passed: 5, failed: 0 });
	expect(counted(false, () => vitestCounts({ ...report(vitestParts), numPassedTests: 3 }))).toEqual({ passed: 3, failed: 2 });
	expect(counted(true, () => playwrightCounts({ stats: { expected: 7, unexpected: 1, flaky: 1, skipped: 1 } }))).toEqual({
		passed: 7,
		failed: 3
	});
});

it.each<[string, () => unknown]>([
	['has no figures', () => playwrightCounts({ stats: {} })],
	['has none of one kind', () => vitestCounts({ ...report(vitestParts), numTotalTests: undefined })],
	['has text for figures', () => ({ passed: '3', failed: 0 })],
	['has broken figures', () => ({ passed: 1.5, failed: 0 })],
	['has figures below nought', () => ({ passed: 3, failed: -1 })],
	['is missing', () => JSON.parse('')]
])('counts one failed where a runner ended well and its report %s', (_, counts) => {
	expect(counted(true, counts as () => { passed: number; failed: number })).toEqual({ passed: 0, failed: 1 });
});

it('counts one failed where nothing ran, or the runner failed by itself', () => {
	expect(counted(true, () => ({ passed: 0, failed: 0 }))).toEqual({ passed: 0, failed: 1 });
	expect(counted(false, () => ({ passed: 4, failed: 0 }))).toEqual({ passed: 4, failed: 1 });
});

it('counts one failed for each part of which no test ran', () => {
	expect(vitestCounts(report(['core', 'published', 'server', 'abuse']))).toEqual({ passed: 4, failed: 1 });
	expect(vitestCounts(report(vitestParts, 'pending')).failed).toBe(5);
});

it('ends with its line, and says why, also where it cannot begin', () => {
	const folder = join(freshFolder(), 'clone');
	cpSync('scripts', join(folder, 'scripts'), { recursive: true });
	mkdirSync(join(folder, 'node_modules'));
	for (const file of ['package.json', 'package-lock.json']) cpSync(file, join(folder, file));
	const run = () => spawnSync(process.execPath, ['scripts/test.mjs'], { cwd: folder, env: { PATH: '/nowhere' }, encoding: 'utf8' });
	const withoutNpm = run();
	expect(withoutNpm.status).toBe(1);
	expect(withoutNpm.stdout.trimEnd().split('\n').at(-1)).toBe('0 passed, 1 failed');
	expect(withoutNpm.stderr).toMatch(/npm could not be run: .*ENOENT/);
	// A record that is no JSON makes it throw.
	writeFileSync(join(folder, 'node_modules', '.package-lock.json'), 'no JSON');
	const thrown = run();
	expect(thrown.status).toBe(1);
	expect(thrown.stdout.trimEnd().split('\n').at(-1)).toBe('0 passed, 1 failed');
});
