/** Drills of a paper: one generator and one family for all variants of a place, with other figures in each. */
import { chance, mostSeed, type Chance } from '#shared/quantity/random.ts';
import { askableOf, type FamilyGround } from '#shared/review/drills/askable.ts';
import { NothingToAsk, shuffled } from '#shared/review/drills/draw.ts';
import type { Drill, Generator } from '#shared/review/drills/drill.ts';
import type { Slot } from './blueprint.ts';
import type { DrillItem } from './variant.ts';

export type DrillSlot = Extract<Slot, { kind: 'drill' }>;

export interface DrillSources {
	readonly generators: readonly Generator[];
	/** Families that the paper may ask about, with their evidence tables. */
	readonly grounds: readonly FamilyGround[];
}

/** Seeds tried for one generator and family before it is taken to have nothing more to ask. */
const triesEach = 40;

/**
 * The drills of one place, a variant each. Each asks something else where the generator can: a firing sequence has one order only.
 * @param taken ids of generators that earlier places use; another is chosen where there is one
 * @returns null where nothing of this kind can be asked of these families
 */
export function drillItems(
	{ generators, grounds }: DrillSources,
	slot: DrillSlot,
	variants: number,
	seed: number,
	taken: readonly string[] = []
): DrillItem[] | null {
	const stream = chance(seed, 'paper', 'drill', slot.slot);
	const ofKind = generators.filter(({ drill }) => drill === slot.drill);
	const able = shuffled(stream, askableOf(ofKind, grounds)).sort((a, b) => timesIn(taken, a.id) - timesIn(taken, b.id));
	for (const { id, families } of able) {
		const generator = ofKind.find((one) => one.id === id)!;
		for (const family of families === null ? [null] : shuffled(stream, families)) {
			const ground = grounds.find(({ pack }) => pack.family.id === family) ?? null;
			const seeds = seedsThatAsk(generator, ground, variants, stream);
			if (seeds) {
				const packHash = ground?.pack.hash ?? null;
				return seeds.map((each) => ({ kind: 'drill', drill: slot.drill, generator: id, family, seed: each, packHash }));
			}
		}
	}
	return null;
}

const timesIn = (ids: readonly string[], id: string) => ids.filter((other) => other === id).length;

/** Seeds that give a drill, those first that ask something new; null where there are too few. */
function seedsThatAsk(generator: Generator, ground: FamilyGround | null, count: number, stream: Chance): number[] | null {
	const unlike = new Map<string, number>();
	const alike = new Set<number>();
	for (let tries = 0; tries < triesEach + count && unlike.size < count; tries++) {
		const seed = stream.whole(0, mostSeed);
		const drill = madeBy(generator, ground, seed);
		if (!drill) continue;
		const { asks, given, asking } = drill.question;
		const choices = 'choices' in asking ? asking.choices.map(({ says }) => says).sort() : asking.units;
		const asked = JSON.stringify([asks, given, choices]);
		if (unlike.has(asked)) alike.add(seed);
		else unlike.set(asked, seed);
	}
	const seeds = [...new Set([...unlike.values(), ...alike])];
	return seeds.length >= count ? seeds.slice(0, count) : null;
}

function madeBy(generator: Generator, ground: FamilyGround | null, seed: number): Drill | null {
	try {
		return generator.make({ pack: ground?.pack ?? null, table: ground?.table ?? null }, seed);
	} catch (error) {
		if (error instanceof NothingToAsk) return null;
		throw error;
	}
}
