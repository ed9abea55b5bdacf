/** What is said of a judged reading afterwards, all of it from the family's data and sampled machines. */
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { faultWords, soundWords } from '../likely.ts';
import { demandName, faultName } from '../words.ts';
import type { Suspected } from './suspect.ts';

/** A right judgement of a reading may take so long and still be fluent [s]. */
export const quickReadingS = 20;

export function workedReading(pack: Pack, table: EvidenceTable, one: Suspected, verdict: string): string[] {
	const { facts, suspect, why } = one;
	const { check, column } = facts;
	return [
		`${demandName(pack, column.demand)}. Nine sound appliances in ten: ${soundWords(pack, facts)}.`,
		`With ${faultName(pack.faults[suspect])}, most: ${faultWords(pack, table, facts, suspect)}.`,
		verdict,
		`Why this one read what it did: ${why}`,
		`What can make it mislead: ${check.misleads}`
	];
}
