/** Drills of learners: asked, answered once, and judged as a function of what is stored. */
import { randomBytes, randomInt } from 'node:crypto';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import { askableOf, hasToAsk, type Askable } from '#shared/review/drills/askable.ts';
import { NothingToAsk } from '#shared/review/drills/draw.ts';
import type { Answer, Generator, Judged, Question } from '#shared/review/drills/drill.ts';
import { drillReview } from '#shared/review/memory/recall-of.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { attemptsIn } from '../database/attempts.ts';
import { drillsIn } from '../database/drills.ts';
import type { Database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import type { DrillRow } from '../database/schema.ts';
import { log as problems } from '../log.ts';
import { earlierPacksIn } from '../packs/earlier-packs.ts';
import { packToKeep } from '../packs/kept-packs.ts';
import { isHeldBack, isShut } from '../sittings/release.ts';
import { Recent } from '../recent.ts';
import { judgeStored, makeDrill, secondsOf, type MadeDrill } from './made-drills.ts';
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

/** Its sitting was closed before the answer came. */
const shut = { outcome: 'refused', says: 'The time of this paper is over. This answer was not stored.' } as const;

export type FoundDrill = { readonly outcome: 'standing'; readonly drill: StandingDrill } | typeof missing | typeof making | typeof over;
export type AnsweredDrill =
	| { readonly outcome: 'answered'; readonly drill: StandingDrill }
	| { readonly outcome: 'refused'; readonly says: string }
	| typeof missing
	| typeof making
	| typeof over;
/** `unwanted`: whoever asked had been given one meanwhile; `nothing`: the family turned out to have nothing for it to ask about. */
export type AskedDrill =
	{ readonly outcome: 'asked'; readonly id: string } | { readonly outcome: 'unknown' | 'unwanted' | 'nothing' } | typeof making;

/** Who asks for a drill, where it is to be stored with that. */
export interface Asker {
	isWanted(): boolean;
	asked(id: string): void;
}

export interface Wanted {
	readonly generator: string;
	readonly family: string | null;
	readonly seed: number;
	/** Of the family's pack to make it from; today's where left out. */
	readonly packHash?: string | null;
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
	const made = new Recent<MadeDrill>(200);
	/** What was wanted and turned out to have nothing to ask about; the same figures would do so again. */
	const barren = new Set<string>();
	const keyOf = ({ generator, family, seed, packHash }: Wanted) => `${generator}/${family}/${seed}/${packHash ?? ''}`;
	const packFor = ({ family, packHash }: Wanted) =>
		family === null ? null : packHash ? (packOf(family, packHash) ?? undefined) : known.get(family);

	async function make(generator: Generator, pack: Pack | null, seed: number): Promise<MadeDrill | 'making' | 'nothing'> {
		const table = pack && generator.needs === 'evidence' ? await tableSoon(pack) : null;
		if (generator.needs === 'evidence' && !table) return 'making';
		try {
			return await makeDrill(generator, pack, table, seed);
		} catch (error) {
			if (!(error instanceof NothingToAsk)) throw error;
			problems.error({ family: pack?.family.id, error: error.message }, 'A drill that its family was said to offer could not be made.');
			return 'nothing';
		}
	}

	/** The very drill that was asked. */
	async function again(row: DrillRow): Promise<MadeDrill | 'making' | 'over'> {
		const before = made.get(row.id);
		if (before) return before;
		if (isOver(row)) return 'over';
		const pack = row.family === null ? null : packOf(row.family, row.packHash!);
		const drill = await make(generators.get(row.generator)!, pack, row.seed);
		if (drill === 'nothing') return 'over';
		if (drill !== 'making') made.set(row.id, drill);
		return drill;
	}

	/** Whether this version can no longer say what was asked. */
	function isOver({ generator, family, packHash }: Pick<DrillRow, 'generator' | 'family' | 'packHash'>): boolean {
		return !generators.has(generator) || (family !== null && (packHash === null || packOf(family, packHash) === null));
	}

	/** @returns null where a stored answer is none any more: its question was another version's */
	async function shown(row: DrillRow, drill: MadeDrill): Promise<StandingDrill | null> {
		const { question } = drill;
		const stored = await judgeStored(drill, row);
		if (!stored) return { id: row.id, question, answered: null };
		const { answer, judged } = stored;
		return 'refused' in judged ? null : { id: row.id, question, answered: { answer, judged } };
	}

	function store(row: DrillRow, drill: MadeDrill, answer: Answer, judged: Judged, at: Date): void {
		db.transaction(
			() => {
				// While the drill was made again, its guest may have signed in or gone, and its sitting may have been closed.
				const learner = rows.find(row.id)?.learner;
				if (learner === undefined || isShut(db, { drill: row.id }, at.getTime())) return;
				if (!rows.answer(row.id, JSON.stringify(answer), at)) return;
				// What a sitting shows goes into the log when it may be told.
				if (!isHeldBack(db, { drill: row.id }, at.getTime())) keepReview(row, learner, drill, judged, at);
			},
			{ behavior: 'immediate' }
		);
	}

	/** Puts what an answer showed into the log. To be called within the transaction that saw that it is not there. */
	function keepReview(row: DrillRow, learner: string, drill: MadeDrill, judged: Judged, at: Date): void {
		const minutes = Math.min(secondsOf(row, at) / 60, idleAfterMinutes);
		const review = drillReview(judged, drill.question.drill, at.getTime(), minutes);
		log.add({ ...review, at, learner, drill: row.id });
		memories.take(learner, review);
	}

	/** Whether there is such a generator, and it has something to ask of such a family. */
	function canAsk(wanted: Wanted): boolean {
		const generator = generators.get(wanted.generator);
		if (!generator || barren.has(keyOf(wanted))) return false;
		const pack = packFor(wanted);
		return pack === null || (pack !== undefined && hasToAsk(generator, pack));
	}

	return {
		isOver,
		/** The row of a learner's own drill. */
		row(id: string, learnerId: string): DrillRow | null {
			const row = rows.find(id);
			return row?.learner === learnerId ? row : null;
		},

		/** Whether there is a generator of this kind of drill. */
		hasKind: (kind: string): boolean => [...generators.values()].some(({ drill }) => drill === kind),

		/** Of which families each generator can ask now. */
		async askable(): Promise<Askable[]> {
			const grounds = await Promise.all([...known.values()].map(async (pack) => ({ pack, table: await tableSoon(pack) })));
			return askableOf(generators.values(), grounds);
		},

		canAsk,

		/** Makes a drill ready and stores it, in one transaction with what asked for it. */
		async ask(learnerId: string, wanted: Wanted, now: number, asker?: Asker): Promise<AskedDrill> {
			if (!canAsk(wanted)) return { outcome: 'unknown' };
			const pack = packFor(wanted)!;
			const drill = await make(generators.get(wanted.generator)!, pack, wanted.seed);
			if (drill === 'making') return making;
			if (drill === 'nothing') {
				barren.add(keyOf(wanted));
				return { outcome: 'nothing' };
			}
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
			const ofKind = (await this.askable()).filter(({ drill }) => drill === kind);
			const choices = ofKind.flatMap(({ id: generator, families }) => (families ?? [null]).map((family) => ({ generator, family })));
			if (choices.length === 0) return ofKind.some(({ waiting }) => waiting.length > 0) ? making : { outcome: 'unknown' };
			while (choices.length > 0) {
				const [chosen] = choices.splice(randomInt(choices.length), 1);
				const asked = await this.ask(learnerId, { ...chosen!, seed: randomInt(mostSeed + 1) }, now);
				if (asked.outcome !== 'nothing') return asked;
			}
			return { outcome: 'nothing' };
		},

		/**
		 * Puts what an answered drill of a sitting showed into the log, unless it is there or must not be told yet.
		 * @returns `over` where this version can never tell
		 */
		async review(id: string, now: number): Promise<'done' | 'not yet' | 'over'> {
			const row = rows.find(id);
			if (!row || row.answered === null || isHeldBack(db, { drill: id }, now)) return 'not yet';
			const drill = await again(row);
			if (drill === 'making') return 'not yet';
			if (drill === 'over') return 'over';
			const at = row.answered;
			const stored = await judgeStored(drill, row);
			if (!stored) return 'not yet';
			const { judged } = stored;
			if ('refused' in judged) return 'over';
			db.transaction(
				() => {
					const learner = rows.find(id)?.learner;
					if (learner === undefined || log.isGone(learner) || log.ofDrill(id).length > 0) return;
					keepReview(row, learner, drill, judged, at);
				},
				{ behavior: 'immediate' }
			);
			return 'done';
		},

		async find(id: string, learnerId: string): Promise<FoundDrill> {
			const row = this.row(id, learnerId);
			if (!row) return missing;
			const drill = await again(row);
			if (drill === 'making') return making;
			const standing = drill === 'over' ? null : await shown(row, drill);
			return standing ? { outcome: 'standing', drill: standing } : over;
		},

		/** Judges and stores an answer with what it showed, in one transaction. A second answer changes nothing and is shown the first. */
		async answer(id: string, learnerId: string, answer: Answer, now: number): Promise<AnsweredDrill> {
			const row = this.row(id, learnerId);
			if (!row) return missing;
			const drill = await again(row);
			if (drill === 'making') return making;
			if (drill === 'over') return over;
			if (row.answer === null) {
				if (isShut(db, { drill: id }, now)) return shut;
				const at = new Date(now);
				const judged = await drill.judge(answer, secondsOf(row, at));
				if ('refused' in judged) return { outcome: 'refused', says: judged.refused };
				store(row, drill, answer, judged, at);
			}
			const answered = rows.find(id);
			if (!answered) return missing;
			if (answered.answer === null) return shut;
			const standing = await shown(answered, drill);
			return standing ? { outcome: 'answered', drill: standing } : over;
		}
	};
}
