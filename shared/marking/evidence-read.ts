/**
 * Reading the evidence: whether the sureness stated at each remedy was what the evidence bore, and whether faults judged in or out were.
 * Judged against suspicion, never against the hidden fault, so that luck earns nothing.
 */
import { sureness } from '#shared/callout/action.ts';
import { isShown, surenessOf } from '#shared/diagnosis/proof.ts';
import { line, percent, readBefore } from './bill.ts';
import type { Case } from './bill.ts';
import type { MarkLine } from './mark-sheet.ts';

export function evidenceLines(one: Case): MarkLine[] {
	const lines = [...surenessLines(one), ...judgementLines(one)];
	if (lines.length > 0) return lines;
	const { evidence } = one.callout.pack.rules.marks;
	return [line('evidence', null, evidence, 'No fault was judged in or out and no remedy tried: nothing shows how the evidence was read.')];
}

function surenessLines({ callout, state, path }: Case): MarkLine[] {
	const { pack } = callout;
	const { oneOff, twoOff } = pack.rules.weighing.sureness;
	return state.remedies.map((done) => {
		const { before } = path.events[done.event];
		const index = pack.remedies.findIndex((remedy) => remedy.id === done.remedy);
		const shown = isShown(pack, before.faults, readBefore(state, done.event), done.remedy);
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

function judgementLines({ callout, path }: Case): MarkLine[] {
	const { stillIn, surelyOut, wronglyOut, wronglyIn } = callout.pack.rules.weighing.judged;
	return path.events.flatMap(({ event, before }) => {
		if (event.action.kind !== 'judge') return [];
		const { still } = event.action;
		const words = (chosen: (id: string, p: number) => boolean) =>
			callout.pack.faults.filter((fault, index) => chosen(fault.id, before.faults[index])).map((fault) => fault.says);
		const out = words((id, p) => !still.includes(id) && p > stillIn);
		const kept = words((id, p) => still.includes(id) && p < surelyOut);
		const lines: MarkLine[] = [];
		if (out.length > 0) lines.push(line('evidence', event.index, out.length * wronglyOut, `Judged out too early: ${out.join('; ')}.`));
		if (kept.length > 0)
			lines.push(line('evidence', event.index, kept.length * wronglyIn, `Kept in though ruled out: ${kept.join('; ')}.`));
		return lines.length > 0 ? lines : [line('evidence', event.index, 0, 'Faults were judged in and out as the evidence had it.')];
	});
}
