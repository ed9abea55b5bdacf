/** A callout with everything that its learner must find out: for authors and assessors. */
import type { Household } from '#shared/callout/callout.ts';
import { start } from '#shared/callout/act.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutView } from '#shared/callout/view.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { complainedOf } from '../machine.ts';
import * as option from '../options.ts';
import { overridesFrom } from '../overrides.ts';
import { table } from '../table.ts';
import type { Verb } from '../verb.ts';

interface Result {
	readonly family: string;
	readonly packHash: string;
	readonly seed: number;
	readonly fault: string;
	readonly severity: number;
	readonly household: Household;
	readonly complaint: {
		readonly id: string;
		readonly says: string;
		readonly proves: { readonly demand: string; readonly checks: readonly string[] };
	};
	/** What the learner sees on arrival. */
	readonly view: CalloutView;
}

export const callout: Verb = {
	name: 'callout',
	says: 'The callout of a seed: household, complaint, hidden fault, and what the learner sees on arrival.',
	options: { family: option.family, fault: option.fault, seed: option.seed, set: option.assignment },
	run(given): Result {
		const pack = given.must(option.family);
		const seed = given.must(option.seed);
		const fault = given.may(option.fault);
		const overrides = overridesFrom(pack, given.all(option.assignment));
		const made = complainedOf(() => makeCallout(pack, seed, fault, { overrides }), fault);
		return {
			family: pack.family.id,
			packHash: pack.hash,
			seed,
			fault: made.fault?.id ?? 'none',
			severity: made.severity,
			household: made.household,
			complaint: { id: made.complaint.id, says: made.complaintSays, proves: made.complaint.proves },
			view: viewOf(made, start())
		};
	},
	show: ({ family, seed, fault, severity, household, complaint }: Result) =>
		table(
			['what', 'is'],
			[
				['family', family],
				['seed', String(seed)],
				['household', household.says],
				['facts', household.facts.join(', ') || 'none'],
				['complaint', complaint.says],
				['fault', fault],
				['severity', severity.toFixed(3)]
			]
		)
};
