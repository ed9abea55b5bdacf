/** Parts: what was fitted, on what evidence. A lucky guess loses marks; a wrong part that the evidence justified loses little. */
import type { Remedy } from '#shared/scenario/pack.ts';
import type { RemedyDone } from '#shared/callout/state.ts';
import { surenessOf } from '#shared/diagnosis/proof.ts';
import { isBlind, line, money, percent } from './bill.ts';
import type { Case } from './bill.ts';
import type { MarkLine } from './mark-sheet.ts';

/** How a fit stood with the evidence at the time. */
export interface Fitting {
	readonly done: RemedyDone;
	readonly remedy: Remedy;
	/** Suspicion that it would cure. */
	readonly suspicion: number;
	/** Whether something read showed its fault. */
	readonly shown: boolean;
	/** Whether it rests on the complaint alone, which is no evidence. */
	readonly blind: boolean;
	readonly grounds: 'proved' | 'justified' | 'likely' | 'guessed';
}

/** Parts fitted and work that opened the appliance, in order. Remedies that open nothing cost time alone and are judged by economy. */
export function fittings(one: Case): Fitting[] {
	const { callout, path, state } = one;
	const { pack } = callout;
	const { weighing } = pack.rules;
	return state.remedies.flatMap((done) => {
		const index = pack.remedies.findIndex((remedy) => remedy.id === done.remedy);
		const remedy = pack.remedies[index];
		if (remedy.kind !== 'fit' && remedy.disturbs.length === 0) return [];
		const { before, shown: shownThen, regret } = path.events[done.event];
		const suspicion = before.remedies[index];
		const best = (regret ?? 0) <= weighing.justifiedRegret * path.soundCost;
		const shown = shownThen.before.has(done.remedy);
		const sure = surenessOf(pack, suspicion, shown);
		const blind = isBlind(one, done);
		const grounds = sure === 'proved' ? 'proved' : best && shown ? 'justified' : sure === 'likely' && !blind ? 'likely' : 'guessed';
		return [{ done, remedy, suspicion, shown, blind, grounds }];
	});
}

export function partLines(one: Case): MarkLine[] {
	const { callout, state } = one;
	const fitted = fittings(one);
	const lines = fitted.map((fitting) => fittedLine(one, fitting));
	if (!state.cured) {
		const { parts } = callout.pack.rules.marks;
		lines.push(line('parts', null, parts, 'The fault was still there at the end.'));
	} else if (fitted.length === 0) lines.push(line('parts', null, 0, 'No part was needed, and nothing was opened for nothing.'));
	return lines;
}

function fittedLine({ callout, path }: Case, { done, remedy, suspicion, shown, blind, grounds }: Fitting): MarkLine {
	const { soundPart, luckyPart } = callout.pack.rules.weighing;
	const { event } = path.events[done.event];
	const bill = `${event.minutes} minutes and ${money(callout, event.spent)}`;
	const part = callout.pack.parts.find(({ id }) => id === remedy.part);
	const thing = part ? `The ${lower(part.name)}` : `"${remedy.name}"`;
	const [was, wasSound, given] = part ? ['was the fault', 'was sound', 'fitted'] : ['was the cure', 'was not the cure', 'done'];
	const held = percent(suspicion);
	const at = (lost: number, says: string) => line('parts', event.index, lost, says);
	if (done.cured) {
		if (grounds === 'proved') return at(0, `${thing} was proved (${held}) and then ${given}.`);
		if (grounds === 'justified') return at(0, `${thing} ${was}. At ${held} no check was worth more.`);
		if (grounds === 'likely') {
			const why = shown ? 'A check would have made sure.' : 'What had been read did not single it out.';
			return at(luckyPart.likely, `${thing} ${was}, but it was ${given} at ${held}. ${why}`);
		}
		const on = blind
			? `it was ${given} on the complaint alone (${held}), with no check taken`
			: `the evidence bore ${held} when it was ${given}`;
		return at(luckyPart.guessed, `${thing} ${was}, by luck: ${on}.`);
	}
	if (grounds === 'proved' || grounds === 'justified') {
		return at(soundPart.justified, `${thing} ${wasSound}. The evidence pointed to it (${held}), so little is lost beyond ${bill}.`);
	}
	if (grounds === 'likely') return at(soundPart.likely, `${thing} ${wasSound}. ${bill} went on what was likely (${held}), not proved.`);
	return at(soundPart.guessed, `${thing} ${wasSound}. ${bill} went on a guess (${held}).`);
}

const lower = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);
