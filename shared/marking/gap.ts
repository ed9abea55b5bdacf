/**
 * The gap between what a learner said a check would read and what it would in truth read. A pure function of pack, table, prediction and
 * reading: it knows no callout, and so no hidden fault. The gap is the lesson.
 * @see Schaafstal, Schraagen & van Berlo 2000, Cognitive task analysis and innovation of training: the case of structured troubleshooting,
 *      Human Factors 42(1), 75-86, for stated hypotheses within an explicit method; that the gap is shown at once is a judgement of ours
 */
import { cannotTell, readsInWords } from '#shared/callout/prediction.ts';
import type { CalloutState, Prediction, Reading } from '#shared/callout/state.ts';
import { columnKey, tableFacts, type ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { curedFaults } from '#shared/diagnosis/likelihood.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { atTimes, nearEnough, some } from './gap-weights.ts';
import type { Fit, Gap } from './mark-sheet.ts';
import { bandWords, shownAs } from './sound-band.ts';
import { likelihoodsOf, tellsApart } from './tells-apart.ts';
import { directionOf, usualOf, type Usual } from './usual.ts';

/** The gaps of all predictions that were observed, in order. */
export function gapsOf(pack: Pack, state: Pick<CalloutState, 'predictions' | 'readings'>, table: EvidenceTable): Gap[] {
	return state.predictions.flatMap((prediction) => {
		const isOf = (one: Reading) => one.event === prediction.observed && one.check === prediction.check && one.demand === prediction.demand;
		const reading = state.readings.find(isOf);
		return (reading && gapOf(pack, table, prediction, reading)) ?? [];
	});
}

/** @returns null where the table has no such check, or no machine with one of the faults */
export function gapOf(pack: Pack, table: EvidenceTable, { event, expects }: Prediction, reading: Reading): Gap | null {
	const facts = tableFacts(pack, table).byKey.get(columnKey(reading.check, reading.demand));
	if (!facts) return null;
	const { check, column } = facts;
	const cured = curedFaults(pack, reading.after);
	const named = expects.map(({ fault: id, reads }) => {
		const fault = pack.faults.findIndex((one) => one.id === id);
		return { fault, reads, usual: usualOf(pack, table, facts, fault, cured[fault]) };
	});
	const known = named.flatMap(({ usual, ...rest }) => (usual ? [{ ...rest, usual }] : []));
	if (known.length < named.length) return null;
	const isAlike = reading.unit === check.unit;
	return {
		event,
		observed: reading.event,
		check: check.id,
		reading: { text: reading.text, unit: reading.unit },
		sound: check.way === 'ask' ? null : bandWords(pack, check, column.healthy.from, column.healthy.to),
		stands: check.words || !isAlike ? null : readsInWords(directionOf(pack, check, column.healthy, reading.value)),
		faults: known.map(({ fault, reads, usual }) => ({
			fault: pack.faults[fault].id,
			says: pack.faults[fault].says,
			predicted: readsInWords(reads),
			truly: usual.says,
			fit: fitOf(reads, usual)
		})),
		says: isAlike
			? saysOf(pack, table, facts, reading, known)
			: ['The instrument was set to measure something else: there is nothing to compare.']
	};
}

function fitOf(reads: string, usual: Usual): Fit {
	if (reads === usual.reads) return 'fits';
	return reads !== cannotTell && usual.shares[reads] >= some ? 'partly' : 'misses';
}

type Known = { readonly fault: number; readonly usual: Usual };

function saysOf(pack: Pack, table: EvidenceTable, facts: ColumnFacts, reading: Reading, known: readonly Known[]): string[] {
	// Whether it was set as the check means it is for the debrief to tell.
	const byHand = reading.setting ? ['The instrument was set by hand: this holds where it was set right.'] : [];
	if (!known.some(({ usual }) => belongs(pack, facts, reading, usual))) {
		return [
			`None of ${known.length === 2 ? 'the two' : 'the three'} usually reads this: think of a cause that you did not name.`,
			...byHand
		];
	}
	const likelihoods = likelihoodsOf(pack, table, reading);
	const weighed = known.map(({ fault }) => ({ says: pack.faults[fault].says, likelihood: likelihoods[fault] }));
	return [...tellsApart(weighed), ...byHand];
}

/** Whether machines with the fault read this at all often. */
function belongs(pack: Pack, { check, gauge }: ColumnFacts, { value }: Reading, { from, to, shares }: Usual): boolean {
	if (check.words) return shares[check.words[value].word] >= atTimes;
	const margin = (edge: number) => (Number.isFinite(edge) ? nearEnough * gauge.sdAt(edge) : 0);
	// Past the end of its range the instrument shows no figure.
	const shown = (edge: number) => (edge > gauge.over ? Infinity : shownAs(pack, check, edge));
	return value >= shown(from) - margin(from) && value <= shown(to) + margin(to);
}
