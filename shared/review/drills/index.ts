/** Every generator of drills. */
import { evidenceGenerators } from './evidence/index.ts';
import { sumGenerators } from './sums/index.ts';
import type { Generator } from './drill.ts';

export const generators: readonly Generator[] = [...sumGenerators, ...evidenceGenerators];

/** @param id of a generator @returns it, or undefined where none bears the id */
export function generatorOf(id: string): Generator | undefined {
	return generators.find((one) => one.id === id);
}

/** @param drill a kind of drill @returns its generators; none for a kind that is not known */
export function generatorsOf(drill: string): readonly Generator[] {
	return generators.filter((one) => one.drill === drill);
}
