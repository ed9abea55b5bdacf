/** Safety: every breach costs what the rules say; a dangerous one fails the callout. */
import type { CalloutEvent } from '#shared/callout/state.ts';
import { line } from './bill.ts';
import type { Case } from './bill.ts';
import type { MarkLine } from './mark-sheet.ts';

export function safetyLines({ callout, state }: Case): MarkLine[] {
	const lines = state.events.flatMap((event) =>
		event.breaches.map((id) => {
			const rule = callout.pack.rules.safety.find((r) => r.id === id);
			return line('safety', event.index, rule?.marks ?? 0, rule ? [rule.says, ...whatWasMissing(event), rule.why].join(' ') : id);
		})
	);
	return lines.length > 0 ? lines : [line('safety', null, 0, 'Nothing unsafe was done, and nothing unsafe was left.')];
}

/** An act that was stopped says what should have been so first. */
const whatWasMissing = (event: CalloutEvent): readonly string[] => (event.action.kind === 'leave' ? [] : event.says);

/** Whether a dangerous rule was breached. */
export function wasDangerous({ callout, state }: Case): boolean {
	const dangerous = callout.pack.rules.safety.filter((rule) => rule.dangerous).map((rule) => rule.id);
	return state.events.some((event) => event.breaches.some((id) => dangerous.includes(id)));
}
