/** Marks given when a sitting has closed: worked out in a thread of their own, stored once. */
import { and, asc, eq, isNotNull, isNull } from 'drizzle-orm';
import { generators } from '#shared/review/drills/index.ts';
import type { ItemResult } from '#shared/assessment/result.ts';
import type { Generator } from '#shared/review/drills/drill.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { appendAudit } from '../audit/audit.ts';
import { database, type Database } from '../database/open.ts';
import { itemMark, paper, sitting } from '../database/schema.ts';
import { log } from '../log.ts';
import { packs } from '../packs/packs.ts';
import { contentOf } from './history.ts';
import { CannotMark, resultsIn } from './results.ts';
import { worth } from './worth.ts';

export type Marking = ReturnType<typeof markingIn>;

/** Why a closed sitting has no marks. */
export interface Unmarked {
	/** What this version lacks for it, for an assessor; null where the log alone holds why. */
	readonly lacks: string | null;
}

/** How long one that could not be marked is left alone; with every further failure twice as long, up to the longest. */
const firstPauseMs = 60_000;
const longestPauseMs = 3_600_000;

const generatorsById: ReadonlyMap<string, Generator> = new Map(generators.map((generator) => [generator.id, generator]));

export function markingIn(db: Database, known: ReadonlyMap<string, Pack>) {
	const results = resultsIn(db, known, generatorsById);
	const underWay = new Map<string, Promise<void>>();
	/** Of what could not be marked so far. A restart begins afresh, with another version perhaps. */
	const failures = new Map<string, Unmarked & { readonly pauseMs: number; readonly next: number }>();
	/** One sitting after the other: sixty that end at once are one queue, and not sixty sets of tables. */
	let last: Promise<void> = Promise.resolve();

	const byId = (id: string) =>
		db
			.select({ sitting, cohort: paper.cohort })
			.from(sitting)
			.innerJoin(paper, eq(paper.id, sitting.paper))
			.where(eq(sitting.id, id))
			.get();

	/** In one transaction; a sitting is marked once, whoever comes second. */
	function store(sittingId: string, given: readonly ItemResult[], at: Date): void {
		db.transaction(
			() => {
				const one = byId(sittingId);
				if (!one || one.sitting.marked !== null) return;
				const rows = given.map((result, slot) => ({
					sitting: sittingId,
					slot,
					content: JSON.stringify(result),
					...worth(result),
					at
				}));
				if (rows.length > 0) db.insert(itemMark).values(rows).run();
				db.update(sitting).set({ marked: at }).where(eq(sitting.id, sittingId)).run();
				const content = contentOf.marked(
					rows.map((row) => row.content),
					rows.map(({ got }) => got)
				);
				const { cohort } = one;
				appendAudit(db, { at: at.getTime(), by: null, cohort, kind: 'sitting-marked', subject: sittingId, content });
			},
			{ behavior: 'immediate' }
		);
	}

	/** @throws as `resultsIn(...).of` */
	async function mark(sittingId: string, now: () => number): Promise<void> {
		const one = byId(sittingId)?.sitting;
		if (!one || one.ended === null || one.marked !== null) return;
		store(sittingId, await results.of(one), new Date(now()));
	}

	function failed(sittingId: string, error: unknown, now: number): void {
		const lacks = error instanceof CannotMark ? error.message : null;
		const pauseMs = Math.min(2 * (failures.get(sittingId)?.pauseMs ?? firstPauseMs / 2), longestPauseMs);
		failures.set(sittingId, { lacks, pauseMs, next: now + pauseMs });
	}

	/** Closed sittings that have no marks yet, the earliest first. */
	const leftBehind = (): string[] =>
		db
			.select({ id: sitting.id })
			.from(sitting)
			.where(and(isNotNull(sitting.ended), isNull(sitting.marked)))
			.orderBy(asc(sitting.ended))
			.all()
			.map(({ id }) => id);

	return {
		results,
		leftBehind,

		/** Those of them that are to be marked now: not being marked, and not left alone for a while. @param now [ms since 1970] */
		due: (now: number): string[] => leftBehind().filter((id) => !underWay.has(id) && (failures.get(id)?.next ?? now) <= now),

		/** Why a sitting could not be marked when it was tried last; null where it was not tried, or is marked. */
		unmarked: (sittingId: string): Unmarked | null => failures.get(sittingId) ?? null,

		/**
		 * Marks a closed sitting, after those that wait before it; asked twice, it does so once.
		 * @throws as `resultsIn(...).of`
		 */
		mark(sittingId: string, now: () => number = Date.now): Promise<void> {
			const before = underWay.get(sittingId);
			if (before) return before;
			const marked = last
				.then(() => mark(sittingId, now))
				.then(() => void failures.delete(sittingId))
				.catch((error: unknown) => {
					failed(sittingId, error, now());
					throw error;
				})
				.finally(() => underWay.delete(sittingId));
			underWay.set(sittingId, marked);
			last = marked.catch(() => undefined);
			return marked;
		}
	};
}

let service: Marking | undefined;
/** The marking of this process's database. */
export function marking(): Marking {
	service ??= markingIn(database(), packs());
	return service;
}

/** Marks a closed sitting in the background. What fails is told to the log, and tried again after a while. */
export function markSoon(sittingId: string): void {
	marking()
		.mark(sittingId)
		.catch((error: unknown) => {
			log.error({ sitting: sittingId, error: String(error) }, 'A sitting could not be marked; it is tried again after a while.');
		});
}

/** Marks in the background what the last stop of the server left unmarked, and what could not be marked a while ago. */
export function markLeftBehind(): void {
	for (const id of marking().due(Date.now())) markSoon(id);
}

/** Why a sitting of this process's database could not be marked; null where nothing is known to stand in the way. */
export const whyUnmarked = (sittingId: string): Unmarked | null => marking().unmarked(sittingId);
