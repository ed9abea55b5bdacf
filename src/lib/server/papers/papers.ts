/** Papers as their assessors make, look at and set them: the services of this folder joined over one database. */
import { generators } from '#shared/review/drills/index.ts';
import { skillsOf } from '#shared/review/skills.ts';
import type { Curriculum } from '#shared/scenario/curriculum.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { unchangeable } from '../cohorts/changing.ts';
import { cohortOf, type AtCohort } from '../cohorts/kept.ts';
import { database, type Database } from '../database/open.ts';
import { evidenceFor } from '../evidence/evidence.ts';
import { curriculum } from '../packs/curriculum.ts';
import { earlierPacksIn } from '../packs/earlier-packs.ts';
import { packs } from '../packs/packs.ts';
import { paperWeigher } from '../weighing/weigher.ts';
import type { DrawSources } from './draw-variants.ts';
import { drawerIn } from './drawing.ts';
import { blankFields, paperMakersIn } from './make-paper.ts';
import { paperPagesIn } from './paper-page.ts';
import { paperSettersIn } from './set-paper.ts';
import { standardsIn } from './standard.ts';
import { stockOf, type PaperStock } from './stock.ts';
import { variantPagesIn } from './variant-page.ts';

export type Papers = ReturnType<typeof papersIn>;

const generatorsById = new Map(generators.map((generator) => [generator.id, generator]));
const weighed: Pick<DrawSources, 'tableOf' | 'weigh'> = {
	tableOf: evidenceFor,
	weigh: (pack, table, kind, of) => paperWeigher.weigh(pack, table, kind, of)
};

/**
 * @param known   the packs of today by family
 * @param weighed what takes long: evidence tables, and what is drawn by them
 */
export function papersIn(db: Database, known: ReadonlyMap<string, Pack>, taught: Curriculum, { tableOf, weigh } = weighed) {
	let made: PaperStock | undefined;
	const stock = () => (made ??= stockOf(known, skillsOf(taught, known.values()).skills, generators));
	const packOf = earlierPacksIn(db, known);
	const drawer = drawerIn(db, { known, tableOf, weigh });
	const setters = paperSettersIn(db, { drawer, packOf });
	const layOpen: Parameters<typeof variantPagesIn>[1]['layOpen'] = (pack, table, { seed, fault }) =>
		paperWeigher.weigh(pack, table, 'laidOpen', { seed, fault });
	return {
		drawer,
		stock,
		...paperMakersIn(db, { stock, drawer }),
		set: setters.set,
		extend: setters.extend,
		page: paperPagesIn(db, { known, stock, drawer, setters }),
		variant: variantPagesIn(db, { packOf, tableOf, generators: generatorsById, stock, layOpen }),
		standard: standardsIn(db, stock),

		/** The form of a new paper, right as it comes; null where the cohort is not the assessor's own. */
		blank(at: AtCohort, zone: string, now: number) {
			const cohort = cohortOf(db, at.assessor, at.cohort);
			if (!cohort) return null;
			const fields = blankFields(db, at.cohort, stock(), zone, now);
			return { cohort: { id: cohort.id, name: cohort.name }, fixed: unchangeable(cohort), fields, stock: stock() };
		}
	};
}

let service: Papers | undefined;
/** The papers of this process's database. */
export function papers(): Papers {
	service ??= papersIn(database(), packs(), curriculum());
	return service;
}

/** From what papers are drawn in this process. */
export const drawSources = (): DrawSources => ({ known: packs(), ...weighed });

/** Variants that the last stop of the server left undrawn are drawn now, in the background. */
export const drawLeftBehind = (): void => papers().drawer.drawLeftBehind();
