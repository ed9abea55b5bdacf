/** Which columns a pack's evidence has: every check under every demand it offers, in the pack's order. */
import type { Demand, Quantities } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';

export interface ColumnName {
	readonly check: Check;
	readonly demand: Demand;
}

export const columnsOf = (pack: Pack): readonly ColumnName[] =>
	pack.checks.flatMap((check) => check.under.map((demand) => ({ check, demand })));

const factPrefix = 'fact.';

/** The true value that a check finds: a settled quantity, or 1 or 0 for what the customer knows of the household. */
export function trueValue(check: Pick<Check, 'reads'>, run: Quantities, facts: readonly string[]): number {
	if (check.reads.startsWith(factPrefix)) return facts.includes(check.reads.slice(factPrefix.length)) ? 1 : 0;
	return run[check.reads];
}
