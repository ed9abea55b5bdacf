/** The explained mark: the path step by step, why each reading took its value, the sound path beside it, the one thing to take away. */
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { shownCheck } from '#shared/callout/setting.ts';
import { beliefAfter } from '#shared/diagnosis/belief.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { entropyBits } from '#shared/diagnosis/expected-cost.ts';
import { surenessOf } from '#shared/diagnosis/proof.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { gapsOf } from './gap.ts';
import { judgePath } from './judged-path.ts';
import type { JudgedPath } from './judged-path.ts';
import type { Debrief, MarkLine, MarkSheet, PathStep, ReadingReason } from './mark-sheet.ts';
import { mark } from './mark.ts';
import { nextTime } from './next-time.ts';
import { readingReasons } from './reasons.ts';
import { choiceWords, eventWords, wasStopped } from './words.ts';

/** Faults never held above this are left out of the picture. */
const shownFrom = 0.02;

/** @throws RangeError for a callout without a fault: there is nothing to debrief */
export function debrief(callout: Callout, state: CalloutState, table: EvidenceTable): Debrief {
	const { fault } = callout;
	if (!fault) throw new RangeError('a debrief needs a callout with a hidden fault');
	const path = judgePath(callout, state, table);
	const sound = soundPath(callout, table).state;
	const soundJudged = judgePath(callout, sound, table);
	const reasons = readingReasons(callout, state, table);
	const soundReasons = readingReasons(callout, sound, table);
	const sheet = mark(callout, state, table);
	const justifiedFrom = justified(callout, state, path);
	const telling = mostTelling(
		soundReasons.filter(({ event }) => event < (sound.remedies[0]?.event ?? Infinity)),
		fault.says
	);
	return {
		fault: { id: fault.id, says: fault.says, because: fault.because, area: fault.area },
		sheet,
		prior: priorOf(callout, state, table, path),
		path: stepsOf(callout, state, path),
		justifiedFrom,
		soundPath: stepsOf(callout, sound, soundJudged).map((step) => ({ ...step, regret: null, best: null })),
		cost: { minutes: state.minutes, spent: state.spent, soundMinutes: sound.minutes, soundSpent: sound.spent },
		gaps: gapsOf(callout.pack, state, table),
		reasons,
		sooner: sooner(callout, state, justifiedFrom, telling),
		takeAway: takeAway(callout, state, sheet, telling)
	};
}

/** Faults that were ever held worth showing. */
function shownFaults({ pack }: Callout, path: JudgedPath): { id: string; index: number }[] {
	return pack.faults.flatMap((fault, index) => {
		const ever = path.events.some(({ before, after }) => before.faults[index] >= shownFrom || after.faults[index] >= shownFrom);
		return ever ? [{ id: fault.id, index }] : [];
	});
}

/** What the complaint alone bore. */
function priorOf(callout: Callout, state: CalloutState, table: EvidenceTable, path: JudgedPath): Debrief['prior'] {
	const { faults } = beliefAfter(callout, state, table, 0);
	const shown = shownFaults(callout, path);
	return {
		suspicion: Object.fromEntries(shown.map(({ id, index }) => [id, faults[index]])),
		entropyBits: entropyBits(faults)
	};
}

function stepsOf(callout: Callout, state: CalloutState, path: JudgedPath): PathStep[] {
	const shown = shownFaults(callout, path);
	return path.events.map(({ event, after, regret, best, entropyBits }) => ({
		event: event.index,
		says: eventWords(callout, state, event.index),
		minute: event.minute,
		minutes: event.minutes,
		spent: event.spent,
		regret,
		best: best && choiceWords(callout, best),
		stopped: wasStopped(event),
		suspicion: Object.fromEntries(shown.map(({ id, index }) => [id, after.faults[index]])),
		entropyBits
	}));
}

/** The event before which a remedy that cures was first proved; null where the first remedy came before that, or none did. */
function justified(callout: Callout, state: CalloutState, path: JudgedPath): number | null {
	const { pack, fault } = callout;
	const cures = pack.remedies.flatMap((remedy, index) => (fault?.cured.includes(remedy.id) ? [{ id: remedy.id, index }] : []));
	const found = path.events.find(({ after, shown }) =>
		cures.some(({ id, index }) => surenessOf(pack, after.remedies[index], shown.after.has(id)) === 'proved')
	);
	const from = found ? found.event.index + 1 : Infinity;
	return from <= (state.remedies[0]?.event ?? state.events.length) ? from : null;
}

/** The reading that told the most of those that a sound appliance would not give: that ruled the fault in, if any did. */
function mostTelling(reasons: readonly ReadingReason[], fault: string): ReadingReason | null {
	const odd = reasons.filter((reason) => reason.differs);
	const ruledIn = odd.filter((reason) => reason.ruledIn.includes(fault));
	const among = ruledIn.length > 0 ? ruledIn : odd;
	return among.reduce<ReadingReason | null>((most, reason) => (reason.bits > (most?.bits ?? 0) ? reason : most), null);
}

/** The sound path's telling check, where the learner took it late or never. */
function sooner(callout: Callout, state: CalloutState, justifiedFrom: number | null, telling: ReadingReason | null): string | null {
	if (!telling) return null;
	const taken = state.readings.find((reading) => shownCheck(reading) === telling.check && reading.demand === telling.demand);
	const firstRemedy = state.remedies[0]?.event ?? state.events.length;
	const limit = Math.min(justifiedFrom ?? state.events.length, firstRemedy);
	if (taken && taken.event < limit) return null;
	const check = callout.pack.checks.find((c) => c.id === telling.check)!;
	const minutes = `${check.minutes} ${check.minutes === 1 ? 'minute' : 'minutes'}`;
	return `${choiceWords(callout, { kind: 'check', check: check.id, demand: telling.demand })}, ${minutes}, would have told sooner: it read ${readingWords(telling)}.`;
}

const readingWords = ({ text, unit }: Pick<ReadingReason, 'text' | 'unit'>) => `${text} ${unit}`.trim();

/** The one thing to take away: what cost the most, or what told. */
function takeAway(callout: Callout, state: CalloutState, sheet: MarkSheet, telling: ReadingReason | null): string {
	const dearestOf = (lines: readonly MarkLine[]) => lines.reduce((most, line) => (line.lost > most.lost ? line : most), lines[0]);
	if (state.ended === 'stopped') return nextTime(callout, state);
	const dearest = dearestOf(sheet.lines);
	if (dearest && dearest.lost > 0) return dearest.says;
	const fault = callout.fault!;
	if (!telling) return fault.because;
	const check = callout.pack.checks.find((c) => c.id === telling.check)!;
	return `${fault.because} ${check.name} is what told: ${readingWords(telling)}, where the sound appliance reads ${telling.sound}.`;
}
