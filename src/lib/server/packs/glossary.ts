/** The glossary of this server, read from disk once. */
import type { Term } from '#shared/scenario/glossary.ts';
import { glossaryIn, scenariosFolder, textsIn } from './read-scenarios.ts';

let read: readonly Term[] | undefined;

/** Trade terms with plain meanings, in the order of the alphabet; none where no glossary is there. What is wrong in it stops the start. */
export function glossary(): readonly Term[] {
	read ??= glossaryIn(textsIn(scenariosFolder())).terms;
	return read;
}
