/**
 * A worker thread that weighs evidence: works out debriefs and marks, what was believed and what a paper is drawn from; makes drills that
 * ask about readings, and judges their answers. Keeps the packs and tables it has been given and the drills it has made, the latest few.
 * Run from its source.
 */
import { parentPort } from 'node:worker_threads';
import { calloutResult } from '#shared/assessment/callout-result.ts';
import { calloutCandidates, type CalloutSlot, type CandidateCount } from '#shared/assessment/candidates.ts';
import { drillItems, type DrillSlot } from '#shared/assessment/drill-items.ts';
import { laidOpen, type LaidOpen } from '#shared/assessment/laid-open.ts';
import type { CalloutResult } from '#shared/assessment/result.ts';
import type { CalloutItem, DrillItem } from '#shared/assessment/variant.ts';
import { equalVariants } from '#shared/assessment/variants.ts';
import type { Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import { beliefAfter } from '#shared/diagnosis/belief.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { debrief } from '#shared/marking/debrief.ts';
import type { Debrief } from '#shared/marking/mark-sheet.ts';
import type { Answer, Drill, Judged, Question } from '#shared/review/drills/drill.ts';
import { generators } from '#shared/review/drills/index.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { packFrom } from '../packs/kept-packs.ts';
import { Recent } from '../recent.ts';

/** What a debrief follows from. */
export interface Path {
	readonly seed: number;
	readonly fault: string | null;
	readonly actions: readonly Action[];
}
/** What a drill of a family follows from. */
export interface DrillOf {
	readonly generator: string;
	readonly seed: number;
}

/** Suspicion by fault id. */
export type Believed = Readonly<Record<string, number>>;

/** What can be asked for, and what comes of it. */
export interface Works {
	readonly debrief: { readonly of: Path; readonly gives: Debrief };
	/** The mark of a path, whether or not it has ended. */
	readonly marked: { readonly of: Path; readonly gives: CalloutResult };
	/** What the evidence bore at the end of a path. */
	readonly believed: { readonly of: Path; readonly gives: Believed };
	readonly question: { readonly of: DrillOf; readonly gives: Question };
	readonly judged: {
		readonly of: DrillOf & { readonly answer: Answer; readonly seconds: number };
		readonly gives: Judged | { readonly refused: string };
	};
	/** Callouts from which places of a paper are filled, each with how hard it is thought to be. */
	readonly candidates: {
		readonly of: CandidateCount & { readonly slot: CalloutSlot; readonly seed: number };
		readonly gives: CalloutItem[];
	};
	/** Variants chosen from such callouts by slot. They may be of several families: the pack is any of them. */
	readonly variants: {
		readonly of: { readonly candidates: readonly (readonly CalloutItem[])[]; readonly count: number; readonly seed: number };
		readonly gives: CalloutItem[][];
	};
	/** Drills of a place of a paper, a variant each, of this family or of none; null where it has nothing of the kind to ask. */
	readonly drills: {
		readonly of: { readonly slot: DrillSlot; readonly count: number; readonly seed: number; readonly taken: readonly string[] };
		readonly gives: DrillItem[] | null;
	};
	/** A callout laid open, with its sound path. */
	readonly laidOpen: { readonly of: { readonly seed: number; readonly fault: string }; readonly gives: LaidOpen };
}
export type Work = { [Kind in keyof Works]: { readonly kind: Kind } & Works[Kind]['of'] }[keyof Works];

/** Goes before the first work on a pack, and again where the worker has let go of it. */
export interface Ground {
	/** The pack's content as `packToKeep` writes it. */
	readonly pack: string;
	readonly table: EvidenceTable;
}
export interface WorkOrder {
	readonly number: number;
	readonly packHash: string;
	readonly work: Work;
	readonly ground?: Ground;
}
type Came =
	| { readonly gives: Works[keyof Works]['gives'] }
	/** `name` of the error that it failed with. */
	| { readonly failed: string; readonly name: string }
	/** The pack is not, or no longer, at hand: the order is to be sent again with its ground. */
	| { readonly lacks: 'ground' };
export type WorkDelivery = { readonly number: number } & Came;

const port = parentPort;
if (!port) throw new Error('weigher-worker.ts is started by weigher.ts as a worker thread');
const grounds = new Recent<{ pack: Pack; table: EvidenceTable }>(3);
const drills = new Recent<Drill>(200);

port.on('message', ({ number, ...order }: WorkOrder) => {
	port.postMessage({ number, ...answerTo(order) } satisfies WorkDelivery);
});

function answerTo({ packHash, work, ground: given }: Omit<WorkOrder, 'number'>): Came {
	try {
		if (given) grounds.set(packHash, { pack: packFrom(given.pack), table: given.table });
		const ground = grounds.get(packHash);
		return ground ? { gives: done(work, ground) } : { lacks: 'ground' };
	} catch (error) {
		const failed = error instanceof Error ? error : new Error(String(error));
		return { failed: failed.stack ?? failed.message, name: failed.name };
	}
}

function done(work: Work, { pack, table }: { pack: Pack; table: EvidenceTable }): Works[keyof Works]['gives'] {
	if ('actions' in work) return workedOut(work, pack, table);
	if (work.kind === 'candidates') return calloutCandidates(pack, table, work.slot, work, work.seed);
	if (work.kind === 'variants') return equalVariants(work.candidates, work.count, work.seed);
	if (work.kind === 'drills') return drillItems({ generators, grounds: [{ pack, table }] }, work.slot, work.count, work.seed, work.taken);
	if (work.kind === 'laidOpen') return laidOpen(makeCallout(pack, work.seed, work.fault), table);
	const drill = drillOf(work, pack, table);
	return work.kind === 'question' ? drill.question : drill.judge(work.answer, work.seconds);
}

function workedOut(work: Extract<Work, Path>, pack: Pack, table: EvidenceTable): Debrief | CalloutResult | Believed {
	const callout = makeCallout(pack, work.seed, work.fault ?? undefined);
	const state = replay(callout, work.actions);
	if (work.kind === 'debrief') return debrief(callout, state, table);
	if (work.kind === 'marked') return calloutResult(callout, state, table);
	const { faults } = beliefAfter(callout, state, table, state.events.length);
	return Object.fromEntries(pack.faults.map(({ id }, index) => [id, faults[index]!]));
}

function drillOf({ generator: id, seed }: DrillOf, pack: Pack, table: EvidenceTable): Drill {
	const key = `${pack.hash}/${id}/${seed}`;
	const before = drills.get(key);
	if (before) return before;
	const generator = generators.find((one) => one.id === id);
	if (!generator) throw new RangeError(`no generator of drills is named ${id}`);
	const drill = generator.make({ pack, table }, seed);
	drills.set(key, drill);
	return drill;
}
