/** What an action comes to, before it is written down as an event. */
import type { SafetyRuleId } from '#shared/scenario/safety.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { CalloutEvent, CalloutState } from './state.ts';

export interface Outcome extends Pick<CalloutEvent, 'minutes'>, Partial<Pick<CalloutEvent, 'spent' | 'readings' | 'breaches' | 'says'>> {
	readonly changes?: Partial<Omit<CalloutState, 'minutes' | 'spent' | 'events' | 'readings'>>;
}

/** Being stopped before harm is done, and told why, takes this long [min]. */
export const stopMinutes = 1;

/** The action is stopped: no reading, no work. A dangerous breach ends the visit. */
export function stopped(pack: Pack, breaches: readonly SafetyRuleId[]): Outcome {
	const rules = pack.rules.safety.filter(({ id }) => (breaches as readonly string[]).includes(id));
	return {
		minutes: stopMinutes,
		breaches,
		says: ['Stopped.', ...rules.map(({ says, why }) => `${says} ${why}`)],
		...(rules.some(({ dangerous }) => dangerous) ? { changes: { ended: 'stopped' } } : {})
	};
}
