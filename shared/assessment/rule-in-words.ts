import type { PassRule } from './pass-rule.ts';

/** What it takes to pass: `60 % of all marks, no dangerous act, 2 callouts cured without a guess`. */
export function ruleInWords({ mark, noDanger, cured }: PassRule): string {
	const gates = [
		noDanger ? 'no dangerous act' : null,
		cured > 0 ? `${cured} ${cured === 1 ? 'callout' : 'callouts'} cured without a guess` : null
	];
	return [`${mark}\u00a0% of all marks`, ...gates.filter((gate) => gate !== null)].join(', ');
}
