/** Remedies, the learner's judgement, the proof of the repair and leaving. */
import type { Remedy } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { openingSite } from '#shared/scenario/site.ts';
import type { Sureness } from './action.ts';
import { takeReadings } from './act-look.ts';
import { fetching } from './van.ts';
import type { Callout } from './callout.ts';
import { complaintHolds } from './complaints.ts';
import { breachesOnLeaving, leftOpen } from './leaving.ts';
import { breachesOf, notSafe, standsInTheWay } from './needs.ts';
import { stopped, type Outcome } from './outcome.ts';
import { settled } from './run.ts';
import type { CalloutState, Refusal } from './state.ts';

export function doRemedy(callout: Callout, state: CalloutState, id: string, sure: Sureness): Outcome | Refusal {
	const { pack, fault } = callout;
	const remedy = pack.remedies.find((other) => other.id === id);
	if (!remedy) return { refused: `There is no part or remedy "${id}" for this appliance.` };
	if (isFitted(state, remedy)) return { refused: 'A new one has been fitted already.' };
	const inTheWay = standsInTheWay(pack, remedy.needs, state.site);
	if (inTheWay.length > 0) return { refused: inTheWay.join(' ') };
	const breaches = breachesOf(remedy, state.site);
	if (breaches.length > 0) return stopped(pack, breaches, notSafe(remedy.needs, state.site));
	const cured = fault !== null && fault.cured.includes(id);
	return {
		minutes: remedy.minutes,
		spent: priceOf(remedy),
		says: [`Done: ${remedy.name}. Whether it was the cure, readings will tell.`],
		changes: {
			cured: state.cured || cured,
			provedAt: null,
			remedies: [...state.remedies, { event: state.events.length, remedy: id, sure, cured }]
		}
	};
}

/** The middle of the band is what is charged. */
export function priceOf({ price }: Pick<Remedy, 'price'>): number {
	return (price.from + price.to) / 2;
}

/** A part fitted new in this visit needs no other new one. */
export function isFitted(state: CalloutState, remedy: Remedy): boolean {
	return remedy.kind === 'fit' && state.remedies.some((done) => done.remedy === remedy.id);
}

export function judge({ pack }: Callout, still: readonly string[]): Outcome | Refusal {
	const unknown = still.find((id) => !pack.faults.some((fault) => fault.id === id));
	if (unknown !== undefined) return { refused: `There is no fault "${unknown}" for this appliance.` };
	return { minutes: pack.rules.judgeMinutes };
}

/** What must be restored before the repair can be proved, in words. */
export function wayOfProof({ pack }: Callout, state: CalloutState): string[] {
	return standsInTheWay(pack, openingSite, state.site);
}

/** The checks that show whether the complaint is cured. */
export function checksThatProve({ pack, complaint }: Callout): readonly Check[] {
	return pack.checks.filter(({ id }) => complaint.proves.checks.includes(id));
}

/** Runs the demand complained of with everything restored, and takes the readings that show a cure. */
export function prove(callout: Callout, state: CalloutState): Outcome | Refusal {
	const { pack, complaint } = callout;
	const inTheWay = wayOfProof(callout, state);
	if (inTheWay.length > 0) return { refused: inTheWay.join(' ') };
	const { demand } = complaint.proves;
	const checks = checksThatProve(callout);
	const fetch = fetching(pack, state.fetched, checks);
	const minutes = pack.rules.proveMinutes + fetch.minutes;
	const remains = complaintHolds(complaint, (other) => settled(callout, state.cured, other));
	return {
		minutes,
		readings: takeReadings(callout, state, checks, demand, minutes),
		says: [remains ? 'What the customer complained of is still there.' : 'What the customer complained of is gone.'],
		changes: { demand, fetched: fetch.fetched, provedAt: state.events.length }
	};
}

export function leave(callout: Callout, state: CalloutState, told: readonly string[]): Outcome | Refusal {
	const { pack } = callout;
	const unknown = told.find((id) => !pack.advice.some((advice) => advice.id === id));
	if (unknown !== undefined) return { refused: `The rules have no advice "${unknown}".` };
	const breaches = breachesOnLeaving(callout, state, told);
	const rules = pack.rules.safety.filter(({ id }) => (breaches as readonly string[]).includes(id));
	return {
		minutes: pack.rules.leaveMinutes,
		breaches,
		says: [...leftOpen(state), ...rules.map(({ says, why }) => `${says} ${why}`)],
		changes: { told: [...new Set(told)], ended: rules.some(({ dangerous }) => dangerous) ? 'stopped' : 'left' }
	};
}
