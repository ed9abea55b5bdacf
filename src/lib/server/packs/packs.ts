/** The packs of this server, read from disk once. */
import type { Pack } from '#shared/scenario/pack.ts';
import { readPacks } from './read-scenarios.ts';

let made: ReadonlyMap<string, Pack> | undefined;

/**
 * Packs by family id.
 * @throws ScenarioProblems listing each problem with its file, line and key
 */
export function packs(): ReadonlyMap<string, Pack> {
	made ??= readPacks();
	return made;
}
