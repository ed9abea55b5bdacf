/** Drills as the server holds them: made and judged here, or, where they weigh readings, in a thread of their own. */
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Answer, Generator, Judged, Question } from '#shared/review/drills/drill.ts';
import { NothingToAsk } from '#shared/review/drills/draw.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { DrillRow } from '../database/schema.ts';
import { drillWeigher, WeighingFailed } from '../weighing/weigher.ts';

export interface MadeDrill {
	readonly question: Question;
	/** As that of a `Drill`. */
	judge(answer: Answer, seconds: number): Promise<Judged | { readonly refused: string }>;
}

/**
 * @param pack, table  as the generator needs them
 * @throws NothingToAsk, WeighingFailed
 */
export async function makeDrill(generator: Generator, pack: Pack | null, table: EvidenceTable | null, seed: number): Promise<MadeDrill> {
	if (generator.needs !== 'evidence' || !pack || !table) {
		const drill = generator.make({ pack, table }, seed);
		return { question: drill.question, judge: async (answer, seconds) => drill.judge(answer, seconds) };
	}
	const of = { generator: generator.id, seed };
	try {
		const question = await drillWeigher.weigh(pack, table, 'question', of);
		return { question, judge: (answer, seconds) => drillWeigher.weigh(pack, table, 'judged', { ...of, answer, seconds }) };
	} catch (error) {
		throw error instanceof WeighingFailed && error.of === NothingToAsk.name ? new NothingToAsk(generator.id, seed) : error;
	}
}

/** How long an answer took, by when the drill was asked [s]. */
export function secondsOf({ created }: Pick<DrillRow, 'created'>, answered: Date): number {
	return Math.max(0, answered.getTime() - created.getTime()) / 1000;
}

/** An answer as it is stored, with what is said of it. */
export interface StoredAnswer {
	readonly answer: Answer;
	readonly seconds: number;
	/** A refusal where the answer is none any more: its question was another version's. */
	readonly judged: Awaited<ReturnType<MadeDrill['judge']>>;
}

/** Judges what is stored of a drill. @returns null where it was not answered */
export async function judgeStored(drill: MadeDrill, row: Pick<DrillRow, 'created' | 'answer' | 'answered'>): Promise<StoredAnswer | null> {
	if (row.answer === null || row.answered === null) return null;
	const answer = JSON.parse(row.answer) as Answer;
	const seconds = secondsOf(row, row.answered);
	return { answer, seconds, judged: await drill.judge(answer, seconds) };
}
