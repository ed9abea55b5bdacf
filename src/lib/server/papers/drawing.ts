/** Variants of drafts being drawn, one paper after the other, where they keep nobody else waiting. What is drawn is stored whole or not at all. */
import { randomInt } from 'node:crypto';
import { isNull } from 'drizzle-orm';
import { slotsOf } from '#shared/assessment/blueprint.ts';
import { spreadOf } from '#shared/assessment/spread.ts';
import type { CalloutItem, Variant } from '#shared/assessment/variant.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { paper, type PaperRow } from '../database/schema.ts';
import { evidenceProgress, type EvidenceProgress } from '../evidence/evidence.ts';
import { log } from '../log.ts';
import { WeighingFailed } from '../weighing/weigher.ts';
import { CannotBeDrawn, drawVariants, type DrawSources } from './draw-variants.ts';
import { blueprintOf, keepVariants, paperById, variantsOf } from './kept-paper.ts';

export type Drawing =
	| {
			readonly state: 'drawing';
			/** Places filled, of how many. */
			readonly done: number;
			readonly of: number;
			/** The evidence table that is being made first, in faults; null where none is. */
			readonly table: EvidenceProgress | null;
	  }
	| { readonly state: 'failed'; readonly says: string }
	/** What is wanted is drawn. */
	| { readonly state: 'drawn' };

interface Job {
	readonly wanted: string;
	done: number;
	readonly of: number;
	failed: string | null;
	readonly ended: Promise<void>;
}

/** What the variants follow from, besides chance. */
const wantedOf = ({ blueprint, variantCount }: Pick<PaperRow, 'blueprint' | 'variantCount'>) => `${variantCount} ${blueprint}`;

export type Drawer = ReturnType<typeof drawerIn>;

export function drawerIn(db: Database, sources: DrawSources) {
	/** The latest of each paper; one whose paper wants other variants meanwhile comes to nothing. */
	const jobs = new Map<string, Job>();
	let queue: Promise<void> = Promise.resolve();

	/** Begins to draw, or to draw afresh. */
	function draw(row: PaperRow): void {
		const { id } = row;
		const job: Job = { wanted: wantedOf(row), done: 0, of: slotsOf(blueprintOf(row)).length, failed: null, ended: queue.then(work) };
		jobs.set(id, job);
		queue = job.ended;

		async function work(): Promise<void> {
			if (jobs.get(id) !== job) return;
			try {
				const seed = randomInt(mostSeed + 1);
				const variants = await drawVariants({ blueprint: blueprintOf(row), count: row.variantCount, seed }, sources, () => job.done++);
				if (jobs.get(id) !== job) return;
				store(row, variants, seed);
				jobs.delete(id);
			} catch (error) {
				job.failed = failureOf(error);
				if (job.failed === unforeseen) log.error({ paper: id, error: String(error) }, 'Variants could not be drawn.');
			}
		}
	}

	/** In place of any from before, unless the paper was set or wants others meanwhile. */
	function store(row: PaperRow, variants: readonly Variant[], seed: number): void {
		const now = new Date();
		db.transaction(
			() => {
				const today = paperById(db, row.id);
				if (!today || today.set !== null || wantedOf(today) !== wantedOf(row)) return;
				keepVariants(db, row.id, variants, sources.known.values(), now);
				const content = { variants: variants.length, seed, spread: shareOf(variants) };
				appendAudit(db, { at: now.getTime(), by: null, cohort: row.cohort, kind: 'variants-made', subject: row.id, content });
			},
			{ behavior: 'immediate' }
		);
	}

	const isDrawn = (row: PaperRow): boolean => variantsOf(db, row.id).length === row.variantCount;

	return {
		draw,

		/** How the variants of a paper stand. A draft that lacks them, as after a restart in the middle of drawing, is drawn now. */
		standing(row: PaperRow): Drawing {
			if (!jobs.has(row.id)) {
				if (row.set !== null || isDrawn(row)) return { state: 'drawn' };
				draw(row);
			}
			const { failed, done, of } = jobs.get(row.id)!;
			if (failed !== null) return { state: 'failed', says: failed };
			return { state: 'drawing', done, of, table: tableBeingMade(row, sources.known) };
		},

		/** Drafts that a stop of the server left without their variants. */
		drawLeftBehind(): void {
			for (const row of db.select().from(paper).where(isNull(paper.set)).all()) if (!jobs.has(row.id) && !isDrawn(row)) draw(row);
		},

		/** Comes when nothing is being drawn any more. */
		async settled(): Promise<void> {
			for (let last = queue; ; last = queue) {
				await last;
				if (last === queue) return;
			}
		}
	};
}

const unforeseen = 'The variants could not be drawn. The server keeps why in its log.';

/** Name of what the worker fails with where it cannot choose. */
const tooFew = 'TooFewCallouts';

/** Why it came to nothing, in a sentence for whoever made the paper. */
function failureOf(error: unknown): string {
	if (error instanceof CannotBeDrawn) return error.message;
	if (!(error instanceof WeighingFailed) || error.of !== tooFew) return unforeseen;
	return 'The paper has too few unlike callouts for so many variants. Ask for fewer of a kind, or for fewer variants.';
}

function tableBeingMade(row: PaperRow, known: ReadonlyMap<string, Pack>): EvidenceProgress | null {
	const families = new Set(blueprintOf(row).lines.flatMap((line) => (line.kind === 'callout' ? [line.family] : [...known.keys()])));
	return [...families].map((family) => known.get(family) && evidenceProgress(known.get(family)!.hash)).find((one) => one) ?? null;
}

export const calloutsIn = ({ items }: Variant): CalloutItem[] => items.filter((item) => item.kind === 'callout');

/** How far the variants lie apart at most, as a share of their mean; 0 for a paper of drills alone. */
const shareOf = (variants: readonly Variant[]): number => spreadOf(variants.map(calloutsIn)).share;
