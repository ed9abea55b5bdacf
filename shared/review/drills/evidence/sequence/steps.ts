/** The firing sequence of a family, by demand. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { FamilyData } from '#shared/scenario/schema.ts';
import type { Ground } from '../../drill.ts';
import { demandName } from '../words.ts';

export type Step = FamilyData['sequence'][number];

/** What happens under one demand, in order. */
export interface Sequence {
	readonly demand: Demand;
	readonly steps: readonly Step[];
	/** What watches the whole run and has no place in the order. */
	readonly throughout: readonly Step[];
}

/** The sequences that have at least so many steps, in the order of the family's demands. */
export function sequencesOf({ family }: Pack, least: number): Sequence[] {
	return family.demands
		.map(({ id }) => {
			const all = family.sequence.filter(({ demand }) => demand === id);
			return { demand: id, steps: all.filter((step) => !step.throughout), throughout: all.filter((step) => step.throughout) };
		})
		.filter(({ steps }) => steps.length >= least);
}

/** One of them, the longer the likelier; null where the family has none of so many steps. */
export function drawSequence(stream: Chance, pack: Pack, least: number): Sequence | null {
	const sequences = sequencesOf(pack, least);
	return sequences.length === 0 ? null : stream.pick(sequences, ({ steps }) => steps.length);
}

/** Whether a family can feed a generator that asks about so many steps. */
export const hasSequence =
	(least: number) =>
	({ pack }: Ground): boolean =>
		pack !== null && sequencesOf(pack, least).length > 0;

/** The whole sequence as worked lines. */
export const sequenceLines = (pack: Pack, { demand, steps, throughout }: Sequence): string[] => [
	`${demandName(pack, demand)}, from the start:`,
	...steps.map(({ does }, index) => `${index + 1}. ${does}`),
	...throughout.map(({ does }) => `All the while: ${does}`)
];
