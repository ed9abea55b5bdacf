/** What the reports of the test runners count, and what `npm test` makes of them. */

/** Parts that vitest runs; none may come away without a test. */
export const vitestParts = ['core', 'published', 'practice', 'server', 'abuse'];

/** @returns {{ passed: number, failed: number }} of a report of vitest; each part that ran no test counts as one failed */
export function vitestCounts(report) {
	const silent = vitestParts.filter((part) => !report.testResults.some((file) => file.name.includes(`/tests/${part}/`) && hasRun(file)));
	for (const part of silent) console.error(`No test of ${part} has run.`);
	return { passed: report.numPassedTests, failed: report.numTotalTests - report.numPassedTests + silent.length };
}

const hasRun = ({ assertionResults }) => assertionResults.some(({ status }) => status === 'passed' || status === 'failed');

/** @returns {{ passed: number, failed: number }} of a report of Playwright */
export function playwrightCounts({ stats }) {
	return { passed: stats.expected, failed: stats.unexpected + stats.flaky + stats.skipped };
}

/**
 * What a part counts for.
 * @param {boolean} well  whether its runner ended well
 * @param {() => { passed: number, failed: number }} counts  reads its report
 * @returns {{ passed: number, failed: number }} whole numbers; one failed where the report has none, nothing ran, or the runner failed by itself
 */
export function counted(well, counts) {
	try {
		const { passed, failed } = counts();
		if (![passed, failed].every((figure) => Number.isInteger(figure) && figure >= 0)) throw new Error('its figures are no whole numbers');
		return failed === 0 && (!well || passed === 0) ? { passed, failed: 1 } : { passed, failed };
	} catch (error) {
		console.error(`The report cannot be used: ${error.message}`);
		return { passed: 0, failed: 1 };
	}
}
