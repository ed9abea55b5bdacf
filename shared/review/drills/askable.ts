/** Of which families each generator can ask, as things stand. */
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Generator } from './drill.ts';

/** A generator and the families that it can ask about. */
export interface Asked extends Pick<Generator, 'id' | 'drill'> {
	/** Ids; null where it concerns no family. */
	readonly families: readonly string[] | null;
}

export interface Askable extends Asked {
	/** Families that it could ask about once their evidence table is made. */
	readonly waiting: readonly string[];
}

/** A family with its evidence table, null where that is not made yet. */
export interface FamilyGround {
	readonly pack: Pack;
	readonly table: EvidenceTable | null;
}

/** Whether there is anything in a family to ask about, whether or not its evidence table is made. */
export const hasToAsk = ({ offers }: Pick<Generator, 'offers'>, pack: Pack): boolean => offers?.({ pack, table: null }) ?? true;

/** @param grounds of every family in stock */
export function askableOf(generators: Iterable<Generator>, grounds: readonly FamilyGround[]): Askable[] {
	return [...generators].map((generator) => {
		const { id, drill, needs } = generator;
		if (needs === 'nothing') return { id, drill, families: null, waiting: [] };
		const offering = grounds.filter(({ pack }) => hasToAsk(generator, pack));
		const isReady = ({ table }: FamilyGround) => needs === 'family' || table !== null;
		const idsOf = (some: readonly FamilyGround[]) => some.map(({ pack }) => pack.family.id);
		return { id, drill, families: idsOf(offering.filter(isReady)), waiting: idsOf(offering.filter((one) => !isReady(one))) };
	});
}
