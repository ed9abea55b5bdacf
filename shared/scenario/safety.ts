/**
 * The safety rules and limits that the callout knows how to apply. What they say, what a breach costs and which are dangerous is data
 * (`scenarios/rules/`); a set of rules that lacks one of them is refused.
 */
export const safetyRuleIds = [
	/** Work begun with a needed isolation missing. */
	'work-not-made-safe',
	/** Isolated, but not proved dead before touching. */
	'not-proved-dead',
	/** Electrical work with the electricity on. */
	'live-parts-touched',
	/** A meter set to ohms put across a circuit with its supply on. */
	'meter-on-live-circuit',
	/** A gas-carrying part opened with the gas on. */
	'gas-opened-on',
	/** Left running with combustion beyond the limit. */
	'left-bad-combustion',
	/** Left with gas work not followed by its checks. */
	'left-gas-unproved',
	/** Left with combustion work not followed by its checks. */
	'left-combustion-unproved',
	/** Left with the casing off or a supply off. */
	'left-open',
	/** Left with scalding water at the tap and nobody told. */
	'left-scalding'
] as const;
export type SafetyRuleId = (typeof safetyRuleIds)[number];

export const limitIds = ['co-ratio', 'scald-temp'] as const;
export type LimitId = (typeof limitIds)[number];

/** Telling the customer this deals with the scald rule; and this says what was found and done. */
export const scaldAdvice = 'advise-scald';
export const foundAdvice = 'advise-found';
