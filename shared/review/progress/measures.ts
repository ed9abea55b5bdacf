/**
 * What one callout says of how its learner works. The figures are of the kind in which tutored and untutored troubleshooters were found to
 * differ: sound parts changed, harmful acts, problems verified before work, repairs proved. Computed from callout and path alone.
 * @see Fletcher, study of tutoring in information technology in the navy (first phase, 16 weeks, mostly human tutors): 12 trainees against 12
 * technicians of 3 to 12 years verified the problem in 97 % of cases against 85 %, the solution in 95 % against 77 %, with 8 harmful changes
 * against 18
 * @see Hall et al. on tutored avionics technicians: likelier to test a part thoroughly before replacing it (a direction; no figure)
 */
import { seenBy } from '#shared/appliance/model.ts';
import type { Sureness } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { shownCheck } from '#shared/callout/setting.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { Area } from '#shared/scenario/areas.ts';

/** A remedy tried, how sure the learner said they were, and whether it cured. */
export interface Stated {
	readonly sure: Sureness;
	readonly cured: boolean;
}

export interface CalloutMeasures {
	/** What it can be played again from. */
	readonly packHash: string;
	readonly seed: number;
	readonly family: string;
	/** Area of the hidden fault; null for a machine without one. */
	readonly area: Area | null;
	/** On the callout's clock. */
	readonly minutes: number;
	/** Parts and materials, in the currency of its rules. */
	readonly spent: number;
	readonly currency: string;
	readonly cured: boolean;
	/** Parts fitted that had nothing wrong with them, those fitted after the cure among them. */
	readonly soundParts: number;
	/** Safety rules breached, dangerous ones among them. */
	readonly breaches: number;
	readonly dangerous: number;
	/** Whether what the customer complained of was seen under its demand before any work; null where nothing was done and nothing seen. */
	readonly verifiedFirst: boolean | null;
	/** Whether a cure was proved under the demand complained of; null where there was none to prove. */
	readonly proved: boolean | null;
	readonly stated: readonly Stated[];
}

export function measuresOf(callout: Callout, state: CalloutState): CalloutMeasures {
	const { pack, fault } = callout;
	const breached = state.events.flatMap(({ breaches }) => breaches);
	const dangerous = new Set<string>(pack.rules.safety.filter((rule) => rule.dangerous).map(({ id }) => id));
	return {
		packHash: pack.hash,
		seed: callout.seed,
		family: pack.family.id,
		area: fault?.area ?? null,
		minutes: state.minutes,
		spent: state.spent,
		currency: pack.rules.currency,
		cured: state.cured,
		soundParts: soundParts(callout, state),
		breaches: breached.length,
		dangerous: breached.filter((id) => dangerous.has(id)).length,
		verifiedFirst: verifiedFirst(callout, state),
		proved: state.cured ? state.provedAt !== null : null,
		stated: state.remedies.map(({ sure, cured }) => ({ sure, cured }))
	};
}

function soundParts({ pack }: Callout, { remedies }: CalloutState): number {
	const firstCure = remedies.findIndex(({ cured }) => cured);
	return remedies.filter((done, index) => {
		const isPart = pack.remedies.find(({ id }) => id === done.remedy)?.kind === 'fit';
		return isPart && (!done.cured || index > firstCure);
	}).length;
}

/**
 * Seen by one of the checks that prove the cure, or by any that reads a quantity complained of or one by which that is seen, under a demand
 * complained of. What is noticed as the appliance is run counts as what is measured does.
 */
function verifiedFirst({ pack, complaint }: Callout, { readings, remedies }: CalloutState): boolean | null {
	const demands = new Set([complaint.proves.demand, ...complaint.when.map(({ demand }) => demand)]);
	const quantities = new Set(complaint.when.flatMap(({ quantity }) => [quantity, ...(seenBy[quantity] ?? [])]));
	const telling = new Set(
		pack.checks.filter(({ id, reads }) => complaint.proves.checks.includes(id) || quantities.has(reads)).map(({ id }) => id)
	);
	const work = remedies[0]?.event ?? Infinity;
	const seen = readings.some((reading) => {
		const shown = shownCheck(reading);
		return reading.event < work && demands.has(reading.demand) && shown !== null && telling.has(shown);
	});
	return seen || work < Infinity ? seen : null;
}
