/**
 * Reading the evidence: whether the sureness stated at each remedy was what the evidence bore, and whether faults judged in or out were.
 * Judged against suspicion, never against the hidden fault, so that luck earns nothing.
 */
import { sureness } from '#shared/callout/action.ts';
import type { Area } from '#shared/scenario/areas.ts';
import type { Fault } from '#shared/scenario/schema.ts';
import { surenessOf } from '#shared/diagnosis/proof.ts';
import { line, percent, sawNothing } from './bill.ts';
import type { Case } from './bill.ts';
import type { MarkLine } from './mark-sheet.ts';

export function evidenceLines(one: Case): MarkLine[] {
	const { evidence } = one.callout.pack.rules.marks;
	// Whoever calls a guess a guess is right, and has still read nothing.
	if (sawNothing(one))
		return [line('evidence', null, evidence, 'No check was taken first: there was no evidence to read beyond what running it shows.')];
	const lines = [...surenessLines(one), ...judgementLines(one)];
	if (lines.length > 0) return lines;
	return [
		line('evidence', null, evidence, 'No fault was judged in or out and no remedy got done: nothing shows how the evidence was read.')
	];
}

function surenessLines({ callout, state, path }: Case): MarkLine[] {
	const { pack } = callout;
	const { oneOff, twoOff } = pack.rules.weighing.sureness;
	return state.remedies.map((done) => {
		const { before, shown: shownThen } = path.events[done.event];
		const index = pack.remedies.findIndex((remedy) => remedy.id === done.remedy);
		const shown = shownThen.before.has(done.remedy);
		const bore = surenessOf(pack, before.remedies[index], shown);
		const off = Math.abs(sureness.indexOf(bore) - sureness.indexOf(done.sure));
		const held = percent(before.remedies[index]);
		const name = pack.remedies[index].name;
		if (off === 0) return line('evidence', done.event, 0, `${name}: called ${said[done.sure]}, and the evidence bore that (${held}).`);
		return line(
			'evidence',
			done.event,
			off === 1 ? oneOff : twoOff,
			`${name}: called ${said[done.sure]}; the evidence bore ${held}, ${shown ? 'which is' : 'with nothing read that shows it:'} ${said[bore]}.`
		);
	});
}

const said = { guess: 'a guess', likely: 'likely', proved: 'proved' } as const;

function judgementLines(one: Case): MarkLine[] {
	const { wronglyOut, wronglyIn } = one.callout.pack.rules.weighing.judged;
	return judgements(one).flatMap(({ event, out, kept }) => {
		const words = (faults: readonly Fault[]) => faults.map(({ says }) => says).join('; ');
		const lines: MarkLine[] = [];
		if (out.length > 0) lines.push(line('evidence', event, out.length * wronglyOut, `Judged out too early: ${words(out)}.`));
		if (kept.length > 0) lines.push(line('evidence', event, kept.length * wronglyIn, `Kept in though ruled out: ${words(kept)}.`));
		return lines.length > 0 ? lines : [line('evidence', event, 0, 'Faults were judged in and out as the evidence had it.')];
	});
}

/** Each judgement of the path with the faults that it wrongly left out, and wrongly kept in. */
function judgements({ callout, path }: Case): { event: number; out: Fault[]; kept: Fault[] }[] {
	const { stillIn, surelyOut } = callout.pack.rules.weighing.judged;
	return path.events.flatMap(({ event, before }) => {
		if (event.action.kind !== 'judge') return [];
		const { still } = event.action;
		const faults = (wrong: (id: string, p: number) => boolean) =>
			callout.pack.faults.filter((fault, index) => wrong(fault.id, before.faults[index]));
		return [
			{
				event: event.index,
				out: faults((id, p) => !still.includes(id) && p > stillIn),
				kept: faults((id, p) => still.includes(id) && p < surelyOut)
			}
		];
	});
}

/** The areas of all faults misjudged on the way, each once. */
export function misreadAreas(one: Case): Area[] {
	return [...new Set(judgements(one).flatMap(({ out, kept }) => [...out, ...kept].map(({ area }) => area)))];
}
