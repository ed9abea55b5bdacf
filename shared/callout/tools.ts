/** Tools with a face, as the learner may see them, and how one was set, in words. */
import type { Pack } from '#shared/scenario/pack.ts';
import { rangeFor, rotaryOf, toolOf } from '#shared/scenario/rotary.ts';
import type { Check } from '#shared/scenario/schema.ts';
import type { Chosen } from './state.ts';
import type { ToolOffer } from './view.ts';

/** In the order of the data, each tool once. */
export function toolsOf({ instruments }: Pick<Pack, 'instruments'>): ToolOffer[] {
	const offers = new Map<string, ToolOffer>();
	for (const instrument of instruments) {
		const id = toolOf(instrument);
		if (!instrument.face || offers.has(id)) continue;
		const ranges = rotaryOf(instruments, id).map(({ id, name, measures, unit, over, resolution }) => ({
			id,
			name,
			measures,
			unit,
			over,
			resolution
		}));
		offers.set(id, { id, face: instrument.face, ranges });
	}
	return [...offers.values()];
}

/** For example `ohms 20k, first pin to second pin`; empty where nothing was chosen. */
export function settingInWords(pack: Pick<Pack, 'instruments'>, check: Check, { range, terminals }: Chosen): string {
	const nameOf = (point: string) => (check.terminals?.points.find(({ id }) => id === point)?.name ?? point).toLowerCase();
	const words = [];
	if (range !== undefined) words.push(rangeFor(pack, check, range)?.name ?? range);
	if (terminals) words.push(`${nameOf(terminals[0])} to ${nameOf(terminals[1])}`);
	return words.join(', ');
}
