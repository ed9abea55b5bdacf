/** What the steps of a path were taken for. A step by itself is worth nothing: it is judged with the work that needs it. */
import type { Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutEvent, CalloutState } from '#shared/callout/state.ts';
import type { Choice } from '#shared/diagnosis/next-action.ts';
import { planChoice } from '#shared/diagnosis/plan-choice.ts';
import { planRemedy } from '#shared/diagnosis/plan.ts';
import type { Plan } from '#shared/diagnosis/plan.ts';

/** Actions that show nothing and change nothing of the appliance: what is believed and what is open stays as it was. */
const silent: ReadonlySet<Action['kind']> = new Set(['step', 'judge', 'note', 'predict']);

/** Whether a plan has a step in it. */
export const needsStep = (plan: Plan | null, step: string): boolean =>
	plan?.actions.some((action) => action.kind === 'step' && action.step === step) ?? false;

/**
 * The event that each step was taken for: the first later one that needs it, while what the step brought about still holds.
 * @param states before each event
 * @param choices that the events stand for
 * @returns an index of an event; null for what is no step and for a step that nothing needed
 */
export function purposesOf(
	callout: Callout,
	events: readonly CalloutEvent[],
	states: readonly CalloutState[],
	choices: readonly (Choice | null)[]
): (number | null)[] {
	return events.map(({ action, index }) => {
		if (action.kind !== 'step') return null;
		const sets = callout.pack.rules.steps.find(({ id }) => id === action.step)?.sets ?? [];
		for (let later = index + 1; later < events.length && sets.every((state) => states[later].site.has(state)); later++) {
			const choice = choices[later];
			if (choice && needsStep(planChoice(callout.pack, states[index], callout.complaint, choice, planRemedy), action.step)) return later;
		}
		return null;
	});
}

/** The event from which an action is judged: the first step towards it, where nothing was learnt in between. */
export function judgedFrom(events: readonly CalloutEvent[], purposes: readonly (number | null)[], index: number): number {
	let from = index;
	for (let earlier = index - 1; earlier >= 0 && silent.has(events[earlier].action.kind); earlier--) {
		if (purposes[earlier] === index) from = earlier;
	}
	return from;
}
