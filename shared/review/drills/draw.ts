/** Drawing for a drill: its own stream of chance, an order, a few of many, and trying again until a draw will do. */
import { chance, type Chance } from '#shared/quantity/random.ts';

/** Draws allowed before a generator owns that the family cannot feed it. */
const mostTries = 80;

/** No draw would do: the family offers nothing that this generator can ask about. */
export class NothingToAsk extends Error {
	override readonly name = 'NothingToAsk';
	constructor(generator: string, seed: number) {
		super(`the drill ${generator} found nothing to ask in ${mostTries} draws from seed ${seed}`);
	}
}

/**
 * The first draw that gives something.
 * @param draw returns null where what came up cannot be asked
 * @throws NothingToAsk
 */
export function firstOf<T>(generator: string, seed: number, draw: (stream: Chance, attempt: number) => T | null): T {
	for (let attempt = 0; attempt < mostTries; attempt++) {
		const found = draw(chance(seed, 'drill', generator, attempt), attempt);
		if (found !== null) return found;
	}
	throw new NothingToAsk(generator, seed);
}

export function shuffled<T>(stream: Chance, items: readonly T[]): T[] {
	const out = [...items];
	for (let last = out.length - 1; last > 0; last--) {
		const at = stream.whole(0, last);
		[out[last], out[at]] = [out[at], out[last]];
	}
	return out;
}

/** At most so many of them, each once, in chance order. */
export const someOf = <T>(stream: Chance, items: readonly T[], most: number): T[] => shuffled(stream, items).slice(0, most);
