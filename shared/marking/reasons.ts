/** Why each reading took its value, what the sound machine would have read, and what the reading ruled in or out. */
import type { Quantities } from '#shared/appliance/model.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { settled } from '#shared/callout/run.ts';
import type { CalloutState, Reading } from '#shared/callout/state.ts';
import { bandOf, trueValue } from '#shared/callout/take-check.ts';
import { proofsOf } from '#shared/diagnosis/belief.ts';
import type { EvidenceTable, Suspicion } from '#shared/diagnosis/evidence.ts';
import { suspicion } from '#shared/diagnosis/suspicion.ts';
import { decimalsOf, formatNumber } from '#shared/quantity/format.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import type { ReadingReason } from './mark-sheet.ts';

const placeholder = /\{([^}:]+)(?::(\d))?\}/g;
const ordinaryDigits = 1;

/** Fills `{quantity}` or `{quantity:digits}` in a sentence from a settled run. What the run lacks stays as it is written. */
export function fillWhy(why: string, run: Quantities): string {
	return why.replace(placeholder, (written, key: string, digits?: string) => {
		const value = run[key];
		return value === undefined || Number.isNaN(value)
			? written
			: formatNumber(value, digits === undefined ? ordinaryDigits : Number(digits));
	});
}

/** What a check shows of a true value when nothing disturbs it: a band's word, or the number to the instrument's step with its unit. */
export function undisturbed(pack: Pack, check: Check, value: number): string {
	if (check.words) return check.words[bandOf(check, value)].word;
	const instrument = pack.instruments.find((i) => i.id === check.instrument);
	if (!Number.isFinite(value) || (instrument?.over !== undefined && value > instrument.over)) return 'over range';
	return `${formatNumber(value, decimalsOf(instrument?.resolution ?? 1))} ${check.unit}`.trim();
}

/** A fault is spoken of as ruled out or in when a reading moves it past these. */
const spokenOf = { from: 0.02, out: 0.005, in: 0.1, times: 2 };

/** One reason for each reading of a path, in order. */
export function readingReasons(callout: Callout, state: CalloutState, table: EvidenceTable): ReadingReason[] {
	const { pack, complaint } = callout;
	let before = suspicion(pack, table, complaint.id, []);
	return state.readings.map((reading, index) => {
		const seen = state.readings.slice(0, index + 1);
		// What a proof showed is known before its readings are gone through, so that the bits are those of the reading alone.
		const proofs = proofsOf(state, state.events.slice(0, reading.event + 1));
		if (state.readings[index - 1]?.event !== reading.event) before = suspicion(pack, table, complaint.id, seen.slice(0, -1), proofs);
		const after = suspicion(pack, table, complaint.id, seen, proofs);
		const reason = reasonOf(callout, state, reading, before, after);
		before = after;
		return reason;
	});
}

function reasonOf(callout: Callout, state: CalloutState, reading: Reading, before: Suspicion, after: Suspicion): ReadingReason {
	const { pack } = callout;
	const check = pack.checks.find((c) => c.id === reading.check)!;
	const cured = state.remedies.some((done) => done.cured && done.event < reading.event);
	const says = (chosen: (was: number, is: number) => boolean) =>
		pack.faults.filter((_, fault) => chosen(before.faults[fault], after.faults[fault])).map((fault) => fault.says);
	return {
		event: reading.event,
		check: check.id,
		demand: reading.demand,
		text: reading.text,
		unit: reading.unit,
		why: fillWhy(check.why, settled(callout, cured, reading.demand)),
		sound: undisturbed(pack, check, trueValue(callout, check, reading.demand, true)),
		bits: bitsBetween(before.faults, after.faults),
		ruledOut: says((was, is) => was >= spokenOf.from && is < spokenOf.out),
		ruledIn: says((was, is) => is >= spokenOf.in && is >= was * spokenOf.times)
	};
}

/**
 * Bits that a reading brought: the relative entropy of the belief after it from the belief before, 0 where nothing changed.
 * @see Kullback & Leibler 1951
 */
export function bitsBetween(before: ArrayLike<number>, after: ArrayLike<number>): number {
	let bits = 0;
	for (let i = 0; i < after.length; i++) if (after[i] > 0) bits += after[i] * Math.log2(after[i] / before[i]);
	return Math.max(0, bits);
}
