/** Actions in words, as a bill and a debrief name them. */
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutEvent, CalloutState } from '#shared/callout/state.ts';
import type { Choice } from '#shared/diagnosis/next-action.ts';
import { viewOf } from '#shared/callout/view-of.ts';

const written = new WeakMap<CalloutState, readonly string[]>();

/** What was done in an event, in the same words as while the callout ran. */
export function eventWords(callout: Callout, state: CalloutState, index: number): string {
	let words = written.get(state);
	if (!words) written.set(state, (words = viewOf(callout, state).events.map((event) => event.did)));
	return words[index];
}

/** Whether an act was stopped before it was done, for want of something made safe. Leaving cannot be. */
export const wasStopped = ({ action, breaches }: CalloutEvent): boolean => breaches.length > 0 && action.kind !== 'leave';

/** What might have been done, in words. */
export function choiceWords({ pack }: Callout, choice: Choice): string {
	const demandName = (id: string) => pack.family.demands.find((demand) => demand.id === id)?.short ?? id;
	switch (choice.kind) {
		case 'check':
			return `${pack.checks.find((check) => check.id === choice.check)?.name ?? choice.check} (${demandName(choice.demand)})`;
		case 'demand':
			return `Demand: ${demandName(choice.demand)}`;
		case 'remedy':
			return pack.remedies.find((remedy) => remedy.id === choice.remedy)?.name ?? choice.remedy;
		case 'prove':
			return 'Proving the repair';
		case 'leave':
			return 'Leaving';
	}
}
