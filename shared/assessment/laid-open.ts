/** A callout as an assessor may see it before it is sat: all that is hidden in it, and how a sound engineer gets there. Never a learner's. */
import type { Callout } from '#shared/callout/callout.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import type { Answer, Asking } from '#shared/review/drills/drill.ts';

export interface LaidOpenStep {
	/** What was done, in words. */
	readonly did: string;
	/** What was read by it, or noticed at it, with units as named in the data. */
	readonly read: readonly string[];
	readonly minute: number;
	readonly minutes: number;
	/** In the rules' currency. */
	readonly spent: number;
}

export interface LaidOpen {
	readonly household: string;
	readonly complaint: string;
	readonly fault: { readonly id: string; readonly says: string; readonly because: string };
	readonly steps: readonly LaidOpenStep[];
	readonly minutes: number;
	readonly spent: number;
	readonly currency: string;
}

/**
 * @param table of the callout's own pack
 * @throws RangeError for a callout without a fault
 */
export function laidOpen(callout: Callout, table: EvidenceTable): LaidOpen {
	const { fault } = callout;
	if (!fault) throw new RangeError('there is nothing hidden in a callout without a fault');
	const { household, complaint, events, readings, minutes, spent, rules } = viewOf(callout, soundPath(callout, table).state);
	return {
		household,
		complaint,
		fault: { id: fault.id, says: fault.says, because: fault.because },
		steps: events.map(({ index, did, minute, minutes, spent }) => {
			const taken = readings.filter(({ event }) => event === index);
			const read = taken.map(({ name, noticed, text, unit }) => `${noticed ? `${name}: ` : ''}${text} ${unit}`.trim());
			return { did, read, minute, minutes, spent };
		}),
		minutes,
		spent,
		currency: rules.currency
	};
}

/** Some answer that a drill takes, right or wrong: what it is judged by tells the right one. */
export function someAnswer(asking: Asking): Answer {
	switch (asking.kind) {
		case 'figure':
			return { written: '1' };
		case 'order':
			return { chosen: asking.choices.map(({ id }) => id) };
		case 'one':
		case 'several':
			return { chosen: asking.choices.slice(0, 1).map(({ id }) => id) };
	}
}
