/** What an action comes to, before it is written down as an event. */
import type { SafetyRuleId } from '#shared/scenario/safety.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { SiteState } from '#shared/scenario/schema.ts';
import { siteWords } from '#shared/scenario/site.ts';
import type { CalloutEvent, CalloutState } from './state.ts';

export interface Outcome extends Pick<CalloutEvent, 'minutes'>, Partial<Pick<CalloutEvent, 'spent' | 'readings' | 'breaches' | 'says'>> {
	readonly changes?: Partial<Omit<CalloutState, 'minutes' | 'spent' | 'events' | 'readings'>>;
}

/** Being stopped before harm is done, and told why, takes this long [min]. */
export const stopMinutes = 1;

/**
 * The action is stopped: no reading, no work. A dangerous breach ends the visit.
 * @param missing what should have been so, and was not
 */
export function stopped(pack: Pack, breaches: readonly SafetyRuleId[], missing: readonly SiteState[]): Outcome {
	const rules = pack.rules.safety.filter(({ id }) => (breaches as readonly string[]).includes(id));
	return {
		minutes: stopMinutes,
		breaches,
		says: [`Stopped: ${missing.map((state) => siteWords[state]).join(', and ')}.`],
		...(rules.some(({ dangerous }) => dangerous) ? { changes: { ended: 'stopped' } } : {})
	};
}
