/** Safety: every breach costs what the rules say; a dangerous one fails the callout. */
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutEvent, CalloutState } from '#shared/callout/state.ts';
import type { SafetyRule } from '#shared/scenario/schema.ts';
import { line } from './bill.ts';
import type { Case } from './bill.ts';
import type { MarkLine } from './mark-sheet.ts';
import { eventWords } from './words.ts';

export function safetyLines({ callout, state }: Case): MarkLine[] {
	const told = new Set<string>();
	const lines = state.events.flatMap((event) => linesOf(callout, state, event, told));
	return lines.length > 0 ? lines : [line('safety', null, 0, 'Nothing unsafe was done, and nothing unsafe was left.')];
}

/** Each warning once: an act says what should have been so first, a rule why it is one, and what ended the visit stands over the bill. */
function linesOf(callout: Callout, state: CalloutState, event: CalloutEvent, told: Set<string>): MarkLine[] {
	const rules = callout.pack.rules.safety.filter(({ id }) => event.breaches.includes(id));
	const ending = rules.filter(({ dangerous }) => dangerous);
	const lines: MarkLine[] = [];
	if (ending.length > 0) {
		const did = eventWords(callout, state, event.index);
		const says = event.action.kind === 'leave' ? 'The appliance was left dangerous.' : `What stopped the visit: ${did}.`;
		lines.push(line('safety', event.index, sumOf(ending), says));
	}
	for (const rule of rules.filter(({ dangerous }) => !dangerous)) {
		const missing = lines.length > 0 || event.action.kind === 'leave' ? [] : event.says;
		const why = told.has(rule.id) ? [] : [rule.why];
		told.add(rule.id);
		lines.push(line('safety', event.index, rule.marks, [rule.says, ...missing, ...why].join(' ')));
	}
	return lines;
}

const sumOf = (rules: readonly SafetyRule[]): number => rules.reduce((sum, { marks }) => sum + marks, 0);

/** Whether a dangerous rule was breached. */
export function wasDangerous({ callout, state }: Case): boolean {
	const dangerous = callout.pack.rules.safety.filter((rule) => rule.dangerous).map((rule) => rule.id);
	return state.events.some((event) => event.breaches.some((id) => dangerous.includes(id)));
}
