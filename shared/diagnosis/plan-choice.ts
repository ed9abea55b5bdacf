/** What a choice takes from where a visit stands. */
import type { Pack, Remedy } from '#shared/scenario/pack.ts';
import type { Complaint } from '#shared/scenario/schema.ts';
import type { Choice } from './choice.ts';
import { planCheck, planDemand, planLeave, planProof, type Plan, type Situation } from './plan.ts';

/**
 * @param ofRemedy how far a remedy is planned: by itself (`planRemedy`), or with all that must follow it (`planRepair`)
 * @returns null where it cannot be done
 */
export function planChoice(
	pack: Pack,
	from: Situation,
	complaint: Complaint,
	choice: Choice,
	ofRemedy: (pack: Pack, from: Situation, remedy: Remedy, complaint: Complaint) => Plan | null
): Plan | null {
	switch (choice.kind) {
		case 'check': {
			const check = pack.checks.find(({ id }) => id === choice.check);
			return check ? planCheck(pack, from, check, choice.demand) : null;
		}
		case 'demand':
			return planDemand(pack, from, choice.demand);
		case 'remedy': {
			const remedy = pack.remedies.find(({ id }) => id === choice.remedy);
			return remedy ? ofRemedy(pack, from, remedy, complaint) : null;
		}
		case 'prove':
			return planProof(pack, from, complaint);
		case 'leave':
			return planLeave(pack, from, []);
	}
}
