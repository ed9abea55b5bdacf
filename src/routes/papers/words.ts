import type { SatLine } from '$lib/server/sittings/learners-papers';

/** How a sitting stands, in a line of a list. */
export function resultText({ isRunning, result }: SatLine): string {
	if (isRunning) return 'running.';
	if (!result) return 'no result yet.';
	return `${result.got} of ${result.outOf} marks, ${result.percent}\u00a0%, ${result.passed ? 'passed' : 'not passed'}.`;
}
