/** The appliance as it is left: what is open, off, unproved or unsafe. */
import type { Quantities } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { scaldAdvice, type LimitId, type SafetyRuleId } from '#shared/scenario/safety.ts';
import type { SiteState } from '#shared/scenario/schema.ts';
import { openingSite, supplies } from '#shared/scenario/site.ts';
import type { Callout } from './callout.ts';
import { checksDue } from './disturbed.ts';
import { settled } from './run.ts';
import type { CalloutState } from './state.ts';

/** The rules that leaving now would breach. An appliance with a supply off does not run, so it cannot be left running unsafe. */
export function breachesOnLeaving(callout: Callout, state: CalloutState, told: readonly string[]): SafetyRuleId[] {
	const breaches: SafetyRuleId[] = [];
	const { pack } = callout;
	if (supplies.every((supply) => state.site.has(supply))) {
		const offered = pack.family.demands.map(({ id }) => id);
		const runs = offered.map((demand) => settled(callout, state.cured, demand));
		if (runs.some((run) => coRatio(run) > limit(pack, 'co-ratio'))) breaches.push('left-bad-combustion');
		if (checksDue(pack, state, (kind) => kind === 'gas').length > 0) breaches.push('left-gas-unproved');
		if (checksDue(pack, state, (kind) => kind === 'combustion').length > 0) breaches.push('left-combustion-unproved');
		// The tap run as the customer runs it: most appliances without a mixing valve scald at a trickle.
		const scalds = offered.includes('tap') && (settled(callout, state.cured, 'tap')['tapTempC'] ?? 0) > limit(pack, 'scald-temp');
		if (scalds && !told.includes(scaldAdvice)) breaches.push('left-scalding');
	}
	if (openingSite.some((found) => !state.site.has(found))) breaches.push('left-open');
	return breaches;
}

const leftWords: Partial<Record<SiteState, string>> = {
	'casing-on': 'The casing is left off.',
	'electricity-on': 'The electricity is left off.',
	'gas-on': 'The gas is left off.',
	'water-on': 'The water is left off.'
};

/** What the customer finds off or open afterwards. */
export function leftOpen(state: CalloutState): string[] {
	return openingSite.filter((found) => !state.site.has(found)).map((found) => leftWords[found] ?? `Left without ${found}.`);
}

/**
 * Ratio of carbon monoxide to carbon dioxide in the flue gas, dry; 0 where nothing burns.
 *
 * ratio = (CO ppm / 10000) / CO2 %
 * @see the definition of both units; checked in tests/core/callout/leaving.test.ts
 */
export function coRatio(run: Quantities): number {
	const { coPpm = 0, co2Percent = 0 } = run;
	return co2Percent > 0 ? coPpm / 10_000 / co2Percent : 0;
}

function limit(pack: Pack, id: LimitId): number {
	return pack.rules.limits[id]?.value ?? Infinity;
}
