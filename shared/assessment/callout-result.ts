/** What a callout of a sitting came to. */
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { mark } from '#shared/marking/mark.ts';
import type { CalloutResult } from './result.ts';

/**
 * Marks a path as it stands. One that the end of the sitting cut off is marked like any other: what was not reached by then was not done,
 * and nothing is held against it that only leaving does.
 * @param state  where the path led, ended or not
 */
export function calloutResult(callout: Callout, state: CalloutState, table: EvidenceTable): CalloutResult {
	const { cured, minutes, spent, ended } = state;
	return { kind: 'callout', sheet: mark(callout, state, table), cured, minutes, spent, finished: ended !== null };
}
