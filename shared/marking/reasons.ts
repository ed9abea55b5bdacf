/** Why each reading took its value, what the sound machine would have read, and what the reading ruled in or out. */
import type { Quantities } from '#shared/appliance/model.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { follow } from '#shared/callout/follow.ts';
import { settled } from '#shared/callout/run.ts';
import type { CalloutState, Reading } from '#shared/callout/state.ts';
import { bandOf, trueValue } from '#shared/callout/take-check.ts';
import { settingInWords } from '#shared/callout/tools.ts';
import { proofsOf } from '#shared/diagnosis/belief.ts';
import type { EvidenceTable, Suspicion } from '#shared/diagnosis/evidence.ts';
import { suspicion } from '#shared/diagnosis/suspicion.ts';
import { decimalsOf, formatNumber } from '#shared/quantity/format.ts';
import { errorSd, overRange } from '#shared/quantity/instrument.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { instrumentOf, rangeFor } from '#shared/scenario/rotary.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { judgePath } from './judged-path.ts';
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

/** The reason that a check gives for a true value, yet to be filled. */
export function whyRead(check: Pick<Check, 'why' | 'words'>, value: number): string {
	const { why, words } = check;
	if (typeof why === 'string') return why;
	const word = words?.[bandOf(check, value)].word;
	const isFor = ({ when, below }: (typeof why)[number]) =>
		word === undefined ? below === undefined || value < below : when !== undefined && [when].flat().includes(word);
	return (why.find(isFor) ?? why[why.length - 1]).says;
}

/**
 * What a check shows of a true value when nothing disturbs it: a band's word, or the number to the instrument's step with its unit.
 * @param range  the range that the instrument was set to by hand
 */
export function undisturbed(pack: Pack, check: Check, value: number, range?: string): string {
	if (check.words) return check.words[bandOf(check, value)].word;
	const instrument = range === undefined ? instrumentOf(pack, check) : rangeFor(pack, check, range);
	if (!Number.isFinite(value) && instrument && 'beyond' in instrument && instrument.beyond) return instrument.beyond;
	if (!Number.isFinite(value) || (instrument?.over !== undefined && value > instrument.over)) return overRange;
	return `${formatNumber(value, decimalsOf(instrument?.resolution ?? 1))} ${check.unit}`.trim();
}

/** A fault is spoken of as ruled out or in when a reading moves it past these. */
const spokenOf = { from: 0.02, out: 0.005, in: 0.1, times: 2 };

/** One reason for each reading of a path, in order. */
export function readingReasons(callout: Callout, state: CalloutState, table: EvidenceTable): ReadingReason[] {
	const { pack, complaint } = callout;
	const { events } = judgePath(callout, state, table);
	let before: Suspicion;
	return state.readings.map((reading, index) => {
		const { event } = reading;
		// What a proof showed is known before its readings are gone through, so that the bits are those of the reading alone.
		const proofs = proofsOf(state, state.events.slice(0, event + 1));
		const believed = (readings: number) => suspicion(pack, table, complaint.id, state.readings.slice(0, readings), proofs);
		// What is believed between events has been worked out already.
		if (state.readings[index - 1]?.event !== event)
			before = events[event].event.action.kind === 'prove' ? believed(index) : events[event].before;
		const after = state.readings[index + 1]?.event === event ? believed(index + 1) : events[event].after;
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
	const { proves } = callout.complaint;
	const why = whyOf(callout, reading, check, cured);
	const taken = reading.trace;
	const sound = taken && follow(pack, callout.sound, check, reading.demand);
	return {
		...(sound && { trace: { taken, sound } }),
		event: reading.event,
		check: check.id,
		demand: reading.demand,
		text: reading.text,
		unit: reading.unit,
		...why,
		confirms: why.differs && reading.demand === proves.demand && proves.checks.includes(check.id),
		bits: bitsBetween(before.faults, after.faults),
		ruledOut: says((was, is) => was >= spokenOf.from && is < spokenOf.out),
		ruledIn: says((was, is) => is >= spokenOf.in && is >= was * spokenOf.times)
	};
}

/** What the reading was of: with the instrument set by hand, it may have been another check's quantity, or none. */
function whyOf(
	callout: Callout,
	{ demand, value, text, unit, setting }: Reading,
	check: Check,
	cured: boolean
): Pick<ReadingReason, 'why' | 'sound' | 'differs'> {
	const { pack } = callout;
	const set = setting ? `Set by hand: ${settingInWords(pack, check, setting)}. ` : '';
	const read = setting ? pack.checks.find(({ id }) => id === setting.stands) : check;
	// So set, a sound appliance would have shown the same.
	if (!read) return { why: `${set}So set, it says nothing of the appliance.`, sound: `${text} ${unit}`.trim(), differs: false };
	const soundValue = trueValue(callout, read, demand, true);
	const trueNow = trueValue(callout, read, demand, cured);
	// A sense may be taken in: the reason is one for what truly was.
	const taken = read.words && value !== bandOf(read, trueNow) ? `Misjudged: it was "${undisturbed(pack, read, trueNow)}". ` : '';
	return {
		why: set + taken + fillWhy(whyRead(read, trueNow), settled(callout, cured, demand)),
		sound: undisturbed(pack, read, soundValue, setting?.range),
		differs: differs(pack, read, value, soundValue)
	};
}

/** How many standard deviations apart two readings of one thing may well lie. */
const wellApart = 3;

function differs(pack: Pack, check: Check, value: number, sound: number): boolean {
	if (check.words) return value !== bandOf(check, sound);
	const instrument = instrumentOf(pack, check);
	if (!instrument || !Number.isFinite(value) || !Number.isFinite(sound)) return value !== sound;
	return Math.abs(value - sound) > wellApart * errorSd(sound, instrument);
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
