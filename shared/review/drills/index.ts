/** Every generator of drills. */
import { evidenceGenerators } from './evidence/index.ts';
import { sumGenerators } from './sums/index.ts';
import type { Generator } from './drill.ts';

export const generators: readonly Generator[] = [...sumGenerators, ...evidenceGenerators];
