/**
 * `npm test`: installs what is missing, then runs every part, going on past one that fails. Ends with one line, `N passed, N failed`, and
 * fails when any part failed or nothing ran. Plain Node with nothing installed.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { browserOrInstall } from './browser.mjs';
import { counted, playwrightCounts, vitestCounts, vitestParts } from './counts.mjs';
import { buildIfChanged, checkNode, installIfMissing, root, run, runLocal } from './make-ready.mjs';

const totals = { passed: 0, failed: 0 };
let finished = false;
// The last line is said however this ends; where it ends before its time, that is a failure more.
process.on('exit', () => {
	if (!finished) totals.failed++;
	console.log(`${totals.passed} passed, ${totals.failed} failed`);
	process.exitCode = totals.failed === 0 && totals.passed > 0 ? 0 : 1;
});

checkNode();
process.chdir(root);
installIfMissing();

const reports = mkdtempSync(join(tmpdir(), 'provewell-reports-'));

/** A part that is one claim: it holds or it does not. */
function one(name, holds) {
	const began = heading(name);
	tally(name, began, holds() ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 });
}

/** A part of many tests, whose runner writes a report. */
function many(name, counts, runs) {
	const began = heading(name);
	const report = join(reports, `${name.replaceAll(' ', '-')}.json`);
	const well = runs(report);
	tally(
		name,
		began,
		counted(well, () => counts(JSON.parse(readFileSync(report, 'utf8'))))
	);
}

function heading(name) {
	console.log(`\n== ${name}`);
	return Date.now();
}

function tally(name, began, { passed, failed }) {
	totals.passed += passed;
	totals.failed += failed;
	console.log(`== ${name}: ${failed ? 'failed' : 'passed'} in ${Math.round((Date.now() - began) / 1000)} s`);
}

one('types', () => {
	const core = runLocal('typescript/bin/tsc', ['-p', 'shared/tsconfig.json']);
	const synced = runLocal('@sveltejs/kit/svelte-kit.js', ['sync']);
	return (
		runLocal('svelte-check/bin/svelte-check', ['--tsconfig', './tsconfig.json', '--fail-on-warnings', '--output', 'human']) &&
		core &&
		synced
	);
});
one('lint', () => {
	const laidOut = runLocal('prettier/bin/prettier.cjs', ['--check', '--log-level', 'warn', '.']);
	return runLocal('eslint/bin/eslint.js', ['--max-warnings', '0', '.']) && laidOut;
});
one('rooms', () => run('npm', ['run', '-s', 'rooms']));
one('build', () => buildIfChanged());
many(vitestParts.join(' '), vitestCounts, (report) =>
	runLocal('vitest/vitest.mjs', ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`])
);
many('pages', playwrightCounts, (report) => {
	const browser = browserOrInstall();
	if (!browser) return false;
	return runLocal('@playwright/test/cli.js', ['test', '--reporter=line,json'], { CHROMIUM: browser, PLAYWRIGHT_JSON_OUTPUT_NAME: report });
});

rmSync(reports, { recursive: true, force: true });
finished = true;
