/** Drills of learners: asked, answered once, and judged as a function of what is stored. */
import { randomBytes, randomInt } from 'node:crypto';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Answer, Drill, Generator, Ground, Judged, Question } from '#shared/review/drills/drill.ts';
import { drillReview } from '#shared/review/recall-of.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { attemptsIn } from '../database/attempts.ts';
import { drillsIn } from '../database/drills.ts';
import type { Database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import type { DrillRow } from '../database/schema.ts';
import { earlierPacksIn } from '../earlier-packs.ts';
import { packToKeep } from '../kept-packs.ts';
import { Recent } from '../recent.ts';
import type { Memories } from './memories.ts';
import { idleAfterMinutes } from './own-minutes.ts';

/** A drill as its learner may see it. */
export interface StandingDrill {
	readonly id: string;
	readonly question: Question;
	readonly answered: { readonly answer: Answer; readonly judged: Judged } | null;
}

const missing = { outcome: 'missing' } as const;
/** Its family's evidence table is being made; ask again. */
const making = { outcome: 'making' } as const;
const over = {
	outcome: 'over',
	says: 'This drill was asked with an earlier version of the appliance, and this version would give other figures. It cannot be judged.'
} as const;

export type FoundDrill = { readonly outcome: 'standing'; readonly drill: StandingDrill } | typeof missing | typeof making | typeof over;
export type AnsweredDrill =
	| { readonly outcome: 'answered'; readonly drill: StandingDrill }
	| { readonly outcome: 'refused'; readonly says: string }
	| typeof missing
	| typeof making
	| typeof over;
/** `unwanted`: whoever asked had been given one meanwhile. */
export type AskedDrill =
	{ readonly outcome: 'asked'; readonly id: string } | { readonly outcome: 'unknown' } | { readonly outcome: 'unwanted' } | typeof making;

/** Who asks for a drill, where it is to be stored with that. */
export interface Asker {
	isWanted(): boolean;
	asked(id: string): void;
}

export interface Wanted {
	readonly generator: string;
	readonly family: string | null;
	readonly seed: number;
}

export interface DrillSources {
	readonly known: ReadonlyMap<string, Pack>;
	readonly generators: ReadonlyMap<string, Generator>;
	/** The evidence table where it comes within a moment, else null. */
	readonly tableSoon: (pack: Pack) => Promise<EvidenceTable | null>;
}

export type Drills = ReturnType<typeof drillServiceIn>;

export function drillServiceIn(db: Database, memories: Memories, { known, generators, tableSoon }: DrillSources) {
	const rows = drillsIn(db);
	const attempts = attemptsIn(db);
	const log = reviewLogIn(db);
	const packOf = earlierPacksIn(db, known);
	const made = new Recent<Drill>(200);

	async function make(generator: Generator, pack: Pack | null, seed: number): Promise<Drill | null> {
		const table = pack && generator.needs === 'evidence' ? await tableSoon(pack) : null;
		if (generator.needs === 'evidence' && !table) return null;
		const ground: Ground = { pack, table };
		return generator.make(ground, seed);
	}

	/** The very drill that was asked. */
	async function again(row: DrillRow): Promise<Drill | 'making' | 'over'> {
		const before = made.get(row.id);
		if (before) return before;
		if (isOver(row)) return 'over';
		const pack = row.family === null ? null : packOf(row.family, row.packHash!);
		const drill = await make(generators.get(row.generator)!, pack, row.seed);
		if (drill) made.set(row.id, drill);
		return drill ?? 'making';
	}

	/** Whether this version can no longer say what was asked. */
	function isOver({ generator, family, packHash }: Pick<DrillRow, 'generator' | 'family' | 'packHash'>): boolean {
		return !generators.has(generator) || (family !== null && (packHash === null || packOf(family, packHash) === null));
	}

	function shown(row: DrillRow, drill: Drill): StandingDrill {
		const { question } = drill;
		if (row.answer === null || row.answered === null) return { id: row.id, question, answered: null };
		const answer = JSON.parse(row.answer) as Answer;
		const judged = drill.judge(answer, secondsOf(row, row.answered));
		// It was taken as an answer when it was given, by the same function of the same figures.
		if ('refused' in judged) throw new Error(`The stored answer of drill ${row.id} is refused: ${judged.refused}`);
		return { id: row.id, question, answered: { answer, judged } };
	}

	function store(row: DrillRow, drill: Drill, answer: Answer, judged: Judged, at: Date): void {
		const minutes = Math.min(secondsOf(row, at) / 60, idleAfterMinutes);
		const review = drillReview(judged, drill.question.drill, at.getTime(), minutes);
		db.transaction(
			() => {
				if (!rows.answer(row.id, JSON.stringify(answer), at)) return;
				log.add({ ...review, at, learner: row.learner, drill: row.id });
				memories.take(row.learner, review);
			},
			{ behavior: 'immediate' }
		);
	}

	return {
		isOver,
		/** The row of a learner's own drill. */
		row(id: string, learnerId: string): DrillRow | null {
			const row = rows.find(id);
			return row?.learner === learnerId ? row : null;
		},

		/** Families whose evidence table is at hand. */
		async familiesWithEvidence(): Promise<ReadonlySet<string>> {
			const tables = await Promise.all([...known].map(async ([family, pack]) => ((await tableSoon(pack)) ? [family] : [])));
			return new Set(tables.flat());
		},

		/** Makes a drill ready and stores it, in one transaction with what asked for it. */
		async ask(learnerId: string, wanted: Wanted, now: number, asker?: Asker): Promise<AskedDrill> {
			const generator = generators.get(wanted.generator);
			const pack = wanted.family === null ? null : known.get(wanted.family);
			if (!generator || pack === undefined) return { outcome: 'unknown' };
			const drill = await make(generator, pack, wanted.seed);
			if (!drill) return making;
			const id = randomBytes(16).toString('base64url');
			const created = new Date(now);
			const row: DrillRow = { id, learner: learnerId, ...wanted, packHash: pack?.hash ?? null, created, answer: null, answered: null };
			return db.transaction(
				(): AskedDrill => {
					if (asker?.isWanted() === false) return { outcome: 'unwanted' };
					if (pack) attempts.keepPack({ hash: pack.hash, family: pack.family.id, content: packToKeep(pack), created });
					rows.add(row);
					asker?.asked(id);
					made.set(id, drill);
					return { outcome: 'asked', id };
				},
				{ behavior: 'immediate' }
			);
		},

		/** Asks one of a kind, of any generator and family that can make it now. */
		async askKind(learnerId: string, kind: string, now: number): Promise<AskedDrill> {
			const ofKind = [...generators.values()].filter((generator) => generator.drill === kind);
			if (ofKind.length === 0) return { outcome: 'unknown' };
			const withEvidence = await this.familiesWithEvidence();
			const choices = ofKind.flatMap((generator): Omit<Wanted, 'seed'>[] => {
				if (generator.needs === 'nothing') return [{ generator: generator.id, family: null }];
				const families = generator.needs === 'family' ? [...known.keys()] : [...withEvidence];
				return families.map((family) => ({ generator: generator.id, family }));
			});
			if (choices.length === 0) return making;
			return this.ask(learnerId, { ...choices[randomInt(choices.length)]!, seed: randomInt(2 ** 31 - 1) }, now);
		},

		async find(id: string, learnerId: string): Promise<FoundDrill> {
			const row = this.row(id, learnerId);
			if (!row) return missing;
			const drill = await again(row);
			return drill === 'making' ? making : drill === 'over' ? over : { outcome: 'standing', drill: shown(row, drill) };
		},

		/** Judges and stores an answer with what it showed, in one transaction. A second answer changes nothing and is shown the first. */
		async answer(id: string, learnerId: string, answer: Answer, now: number): Promise<AnsweredDrill> {
			const row = this.row(id, learnerId);
			if (!row) return missing;
			const drill = await again(row);
			if (drill === 'making') return making;
			if (drill === 'over') return over;
			if (row.answer === null) {
				const at = new Date(now);
				const judged = drill.judge(answer, secondsOf(row, at));
				if ('refused' in judged) return { outcome: 'refused', says: judged.refused };
				store(row, drill, answer, judged, at);
			}
			return { outcome: 'answered', drill: shown(rows.find(id)!, drill) };
		}
	};
}

function secondsOf({ created }: DrillRow, answered: Date): number {
	return Math.max(0, answered.getTime() - created.getTime()) / 1000;
}
