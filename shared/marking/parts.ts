/** Parts: what was fitted, on what evidence. A lucky guess loses marks; a wrong part that the evidence justified loses little. */
import type { Part } from '#shared/scenario/schema.ts';
import type { RemedyDone } from '#shared/callout/state.ts';
import { line, money, percent } from './bill.ts';
import type { Case } from './bill.ts';
import type { MarkLine } from './mark-sheet.ts';

/** How a fit stood with the evidence at the time. */
export interface Fitting {
	readonly done: RemedyDone;
	readonly part: Part;
	/** Suspicion that it would cure. */
	readonly suspicion: number;
	readonly grounds: 'proved' | 'justified' | 'likely' | 'guessed';
}

/** Parts fitted, in order. Remedies that fit nothing cost time alone and are judged by economy. */
export function fittings({ callout, path, state }: Case): Fitting[] {
	const { pack } = callout;
	const { proof, weighing } = pack.rules;
	return state.remedies.flatMap((done) => {
		const index = pack.remedies.findIndex((remedy) => remedy.id === done.remedy);
		const part = pack.parts.find((p) => p.id === pack.remedies[index].part);
		if (!part) return [];
		const { before, regret } = path.events[done.event];
		const suspicion = before.remedies[index];
		const best = (regret ?? 0) <= weighing.justifiedRegret * path.soundCost;
		const grounds = suspicion >= proof.proved ? 'proved' : best ? 'justified' : suspicion >= proof.likely ? 'likely' : 'guessed';
		return [{ done, part, suspicion, grounds }];
	});
}

export function partLines(one: Case): MarkLine[] {
	const { callout, state } = one;
	const fitted = fittings(one);
	const lines = fitted.map((fitting) => fittedLine(one, fitting));
	if (!state.cured) {
		const { parts } = callout.pack.rules.marks;
		lines.push(line('parts', null, parts, 'The fault was still there at the end.'));
	} else if (fitted.length === 0) lines.push(line('parts', null, 0, 'No part was needed, and none was fitted.'));
	return lines;
}

function fittedLine({ callout, path }: Case, { done, part, suspicion, grounds }: Fitting): MarkLine {
	const { soundPart, luckyPart } = callout.pack.rules.weighing;
	const { event } = path.events[done.event];
	const bill = `${event.minutes} minutes and ${money(callout, event.spent)}`;
	const name = part.name.charAt(0).toLowerCase() + part.name.slice(1);
	const held = percent(suspicion);
	const at = (lost: number, says: string) => line('parts', event.index, lost, says);
	if (done.cured) {
		if (grounds === 'proved') return at(0, `The ${name} was proved (${held}) and then fitted.`);
		if (grounds === 'justified') return at(0, `The ${name} was the fault. At ${held} no check was worth more than fitting it.`);
		if (grounds === 'likely')
			return at(luckyPart.likely, `The ${name} was the fault, but it was fitted at ${held}. A check would have made sure.`);
		return at(luckyPart.guessed, `The ${name} was the fault, by luck: the evidence bore ${held} when it was fitted.`);
	}
	if (grounds === 'proved' || grounds === 'justified') {
		return at(soundPart.justified, `The ${name} was sound. The evidence pointed to it (${held}), so little is lost beyond ${bill}.`);
	}
	if (grounds === 'likely')
		return at(soundPart.likely, `The ${name} was sound. ${bill} went on a part that was likely (${held}), not proved.`);
	return at(soundPart.guessed, `The ${name} was sound. ${bill} went on a guess (${held}).`);
}
