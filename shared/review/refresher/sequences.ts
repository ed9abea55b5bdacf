/** Firing sequences side by side, demand by demand. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { demandName } from '../drills/evidence/words.ts';

export interface SideStep {
	readonly id: string;
	readonly does: string;
	/** It watches the whole run instead of waiting its turn. */
	readonly throughout: boolean;
	/** `only`: the other side has no such step. `otherwise`: it has it in other words. `same`: word for word. */
	readonly is: 'only' | 'otherwise' | 'same';
}

export interface Side {
	readonly family: string;
	/** Short name of the family. */
	readonly name: string;
	readonly isMet: boolean;
	readonly steps: readonly SideStep[];
}

export interface DemandSequence {
	readonly demand: Demand;
	readonly name: string;
	/** The family met first. */
	readonly sides: readonly Side[];
}

type Step = Pack['family']['sequence'][number];

const stepsUnder = ({ family }: Pack, demand: Demand): readonly Step[] => family.sequence.filter((step) => step.demand === demand);

/** @returns the sequence under each demand under which anything happens, in the order of the families' own data */
export function sequencesBeside(met: Pack, known: readonly Pack[]): DemandSequence[] {
	const packs = [met, ...known];
	const demands = new Set(packs.flatMap(({ family }) => family.sequence.map(({ demand }) => demand)));
	return [...demands].map((demand) => ({
		demand,
		name: demandName(packs.find(({ family }) => family.demands.some(({ id }) => id === demand)) ?? met, demand),
		sides: packs.map((pack) => {
			const others = (pack === met ? known : [met]).flatMap((other) => stepsUnder(other, demand));
			const steps = stepsUnder(pack, demand).map((step) => sideStep(step, others));
			return { family: pack.family.id, name: pack.family.short, isMet: pack === met, steps };
		})
	}));
}

function sideStep({ id, does, throughout = false }: Step, others: readonly Step[]): SideStep {
	const alike = others.filter((other) => other.id === id);
	const is = alike.length === 0 ? 'only' : alike.some((other) => other.does === does) ? 'same' : 'otherwise';
	return { id, does, throughout, is };
}
