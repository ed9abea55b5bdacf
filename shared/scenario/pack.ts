/**
 * A pack is everything one appliance family needs to stage, diagnose and mark callouts: its data, parsed and checked against its model,
 * with a hash of the content and of what the model makes of it. Suspicion, marks and debriefs name the hash. A callout is played on and
 * marked again only where a version still makes its pack with that very hash; elsewhere it cannot be played on.
 */
import type { ApplianceModel } from '#shared/appliance/model.ts';
import type {
	Advice,
	Check,
	Complaint,
	Drawing,
	Fact,
	FamilyData,
	Fault,
	HouseholdData,
	Instrument,
	Part,
	Rules,
	remedyKinds,
	disturbances,
	SiteState
} from './schema.ts';

/** Everything that can cure or be tried: a part fitted new, or a remedy that is not a part. */
export interface Remedy {
	readonly id: string;
	readonly name: string;
	readonly kind: (typeof remedyKinds)[number];
	/** The part it fits, for `fit-...`. */
	readonly part?: string;
	/** Price band in the rules' currency; the middle is what is charged. */
	readonly price: { readonly from: number; readonly to: number };
	readonly minutes: number;
	readonly place: string;
	readonly needs: readonly SiteState[];
	readonly disturbs: readonly (typeof disturbances)[number][];
	/** What to beware of while it is done. */
	readonly caution?: string | undefined;
}

export interface Pack {
	readonly schema: 1;
	/** SHA-256 of the content, hexadecimal. */
	readonly hash: string;
	readonly model: ApplianceModel;
	readonly family: FamilyData;
	readonly drawing: Drawing;
	readonly faults: readonly Fault[];
	readonly checks: readonly Check[];
	readonly instruments: readonly Instrument[];
	readonly parts: readonly Part[];
	readonly remedies: readonly Remedy[];
	readonly households: readonly HouseholdData[];
	readonly facts: readonly Fact[];
	readonly complaints: readonly Complaint[];
	readonly rules: Rules;
	readonly advice: readonly Advice[];
}

/** Something wrong in the data, said so that its author can mend it. */
export interface Problem {
	readonly file: string;
	readonly line: number;
	readonly key: string;
	readonly says: string;
}
