/** What to take away from a visit that a dangerous act ended: what to do first next time. Why it was dangerous, the rule itself says. */
import type { Callout } from '#shared/callout/callout.ts';
import { checksDue } from '#shared/callout/disturbed.ts';
import { notSafe } from '#shared/callout/needs.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { eventWords } from './words.ts';

export function nextTime(callout: Callout, state: CalloutState): string {
	const { pack } = callout;
	const { action, index } = state.events[state.events.length - 1];
	if (action.kind === 'leave') {
		const due = checksDue(pack, state);
		const names = pack.checks.filter(({ id }) => due.includes(id)).map(({ name }) => lower(name));
		return names.length > 0
			? `Before leaving, take what the work calls for: ${names.join('; ')}.`
			: 'Leave nothing running whose flue gas speaks against it.';
	}
	const work =
		action.kind === 'remedy'
			? pack.remedies.find(({ id }) => id === action.remedy)
			: pack.checks.find(({ id }) => action.kind === 'check' && id === action.check);
	const missing = notSafe(work?.needs ?? [], state.site);
	const steps = pack.rules.steps.filter(({ sets }) => sets.some((set) => missing.includes(set)));
	return `Before "${eventWords(callout, state, index)}": ${steps.map(({ name }) => lower(name)).join('; ')}.`;
}

const lower = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);
