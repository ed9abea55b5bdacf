/** What the readings of an attempt make of its faults. */
import { beliefAfter } from '#shared/diagnosis/belief.ts';
import { evidenceFor } from '../../lib/server/evidence/evidence.ts';
import { attemptFrom } from '../attempt.ts';
import { believed, type Believed } from '../believed.ts';
import * as option from '../options.ts';
import { table } from '../table.ts';
import type { Verb } from '../verb.ts';

interface Result extends Believed {
	readonly family: string;
	readonly seed: number;
	readonly events: number;
}

/** Faults held below this are left out of the table. */
const shownFrom = 0.005;

export const suspicion: Verb = {
	name: 'suspicion',
	says: 'The probability of each fault and remedy after the actions of an attempt.',
	options: { file: option.file },
	async run(given, packs): Promise<Result> {
		const { callout, state } = attemptFrom(given.must(option.file), packs);
		const belief = beliefAfter(callout, state, await evidenceFor(callout.pack), state.events.length);
		return { family: callout.pack.family.id, seed: callout.seed, events: state.events.length, ...believed(callout.pack, belief) };
	},
	show: ({ faults }: Result) =>
		table(
			['fault', 'suspicion'],
			Object.entries(faults).filter(([, chance]) => chance >= shownFrom)
		)
};
