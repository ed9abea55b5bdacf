/** What stands in the way of a check or a remedy, and what makes it unsafe. */
import type { Pack, Remedy } from '#shared/scenario/pack.ts';
import type { SafetyRuleId } from '#shared/scenario/safety.ts';
import type { Check, SiteState } from '#shared/scenario/schema.ts';
import { safeStates, siteWords, supplies } from '#shared/scenario/site.ts';
import type { CalloutState } from './state.ts';

type Site = CalloutState['site'];

/**
 * The states that a check needs. One that needs nothing switched off is taken on an appliance that could run: with a supply off it would
 * not show what the appliance does. Where it names the supplies that it needs, it needs those alone. Asking needs nobody's supplies.
 */
export function needsOfCheck(check: Pick<Check, 'needs' | 'way'>): readonly SiteState[] {
	if (check.way === 'ask' || check.needs.some((state) => safeStates.includes(state) || supplies.includes(state))) return check.needs;
	return [...new Set([...check.needs, ...supplies])];
}

/** What the learner is told to do first, in words; safety is left to the learner and is not among them. */
export function standsInTheWay(pack: Pack, needs: readonly SiteState[], site: Site): string[] {
	return needs
		.filter((state) => !site.has(state) && !safeStates.includes(state))
		.map((state) => {
			const step = pack.rules.steps.find(({ sets }) => sets.includes(state));
			return step ? `${capital(siteWords[state])}: ${lower(step.name)} first.` : `${capital(siteWords[state])}.`;
		});
}

/** States that safety needs and that do not hold. */
export function notSafe(needs: readonly SiteState[], site: Site): SiteState[] {
	return needs.filter((state) => safeStates.includes(state) && !site.has(state));
}

/** The work that is about to be done, as far as safety goes. */
export interface Work {
	readonly needs: readonly SiteState[];
	readonly disturbs: Remedy['disturbs'];
}

/** The rules that the work would breach if it were begun now. */
export function breachesOf(work: Work, site: Site): SafetyRuleId[] {
	const unmet = new Set(notSafe(work.needs, site));
	const breaches = new Set<SafetyRuleId>();
	if (unmet.has('gas-off')) breaches.add(work.disturbs.includes('gas') ? 'gas-opened-on' : 'work-not-made-safe');
	if (!site.has('electricity-off') && (unmet.has('electricity-off') || unmet.has('proved-dead'))) {
		breaches.add(work.disturbs.includes('electrics') ? 'live-parts-touched' : 'work-not-made-safe');
	} else if (unmet.has('proved-dead')) breaches.add('not-proved-dead');
	if (unmet.has('water-off')) breaches.add('work-not-made-safe');
	return [...breaches];
}

function capital(text: string): string {
	return text.charAt(0).toUpperCase() + text.slice(1);
}

function lower(text: string): string {
	return text.charAt(0).toLowerCase() + text.slice(1);
}
