/** Packs from which something was made: those of today, and those that were kept with what was made from them. */
import type { Pack } from '#shared/scenario/pack.ts';
import { attemptsIn } from '../database/attempts.ts';
import type { Database } from '../database/open.ts';
import { packAsKept } from './kept-packs.ts';
import { Recent } from '../recent.ts';

/** The pack of a family by its hash; null where this version would make another pack of what was kept. */
export type PackOf = (family: string, hash: string) => Pack | null;

/** @param known  the packs of today by family */
export function earlierPacksIn(db: Database, known: ReadonlyMap<string, Pack>): PackOf {
	const attempts = attemptsIn(db);
	const kept = new Recent<Pack>(5);
	return (family, hash) => {
		const today = known.get(family);
		if (today?.hash === hash) return today;
		const before = kept.get(hash);
		if (before) return before;
		const content = attempts.packContent(hash);
		const pack = content === undefined ? null : packAsKept(content, hash);
		if (pack) kept.set(hash, pack);
		return pack;
	};
}
