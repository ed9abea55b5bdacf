/** The practice services joined to each other over one database. */
import { generators } from '#shared/review/drills/index.ts';
import type { Curriculum } from '#shared/scenario/curriculum.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { callouts, type Callouts } from '../callouts/callouts.ts';
import { curriculum } from '../packs/curriculum.ts';
import { database, type Database } from '../database/open.ts';
import { evidenceFor } from '../evidence/evidence.ts';
import { packs } from '../packs/packs.ts';
import { inAMoment } from '../patience.ts';
import { drillServiceIn, type DrillSources } from './drills.ts';
import { memoriesIn } from './memories.ts';
import { plansIn } from './plans.ts';
import { refresherResultsIn } from './refresher-results.ts';
import { refreshersIn } from './refreshers.ts';
import { reviewsIn } from './reviews.ts';
import { roundServiceIn } from './rounds.ts';

export type Practice = ReturnType<typeof practiceIn>;

const generatorsById = new Map(generators.map((generator) => [generator.id, generator]));
const tableSoon: DrillSources['tableSoon'] = (pack) => inAMoment(evidenceFor(pack)).catch(() => null);

/** @param sources  where drills come from; the packs are those of `known` */
export function practiceIn(
	db: Database,
	callouts: Callouts,
	known: ReadonlyMap<string, Pack>,
	curriculum: Curriculum,
	sources: Omit<DrillSources, 'known'> = { generators: generatorsById, tableSoon }
) {
	const memories = memoriesIn(db);
	const reviews = reviewsIn(db, callouts, memories);
	const drills = drillServiceIn(db, memories, { known, ...sources });
	const plans = plansIn({ db, known, curriculum, memories, drills, generators: sources.generators });
	const rounds = roundServiceIn({ db, callouts, drills, memories, plans });
	const refreshers = refreshersIn({ known, generators: sources.generators, memories, plans, rounds });
	const refresherResult = refresherResultsIn({ callouts, drills, memories, rounds, refreshers });
	return { memories, reviews, drills, plans, rounds, refreshers, refresherResult };
}

let service: Practice | undefined;
/** The practice of this process's database. */
export function practice(): Practice {
	service ??= practiceIn(database(), callouts(), packs(), curriculum());
	return service;
}
