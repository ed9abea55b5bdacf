/** What of a sitting goes into its statement. */
import { createHash } from 'node:crypto';
import { eq } from 'drizzle-orm';
import { z } from 'zod';
import type { SatPaper } from '#shared/assessment/statement.ts';
import { attemptsIn } from '../database/attempts.ts';
import type { Database } from '../database/open.ts';
import { cohort, paper, sitting } from '../database/schema.ts';
import { packs } from '../packs/packs.ts';
import { itemsOf } from '../papers/kept-paper.ts';
import { sheetOf } from '../sheets/sheet.ts';

/** @returns null for a sitting that is not marked, is out of no marks, or is of an invented cohort */
export function satPaper(db: Database, sittingId: string): Omit<SatPaper, 'id' | 'origin'> | null {
	const found = db
		.select({ sitting, paper, cohort })
		.from(sitting)
		.innerJoin(paper, eq(paper.id, sitting.paper))
		.innerJoin(cohort, eq(cohort.id, paper.cohort))
		.where(eq(sitting.id, sittingId))
		.get();
	const sheet = found && sheetOf(db, sittingId);
	if (!sheet || !found.sitting.ended || found.cohort.invented || sheet.outcome.outOf === 0) return null;
	const hashes = packHashesOf(db, found.paper.id, found.sitting.variant);
	return {
		member: found.sitting.member,
		paper: { id: found.paper.id, title: found.paper.title, mode: found.paper.mode, variant: found.sitting.variant },
		registration: registrationOf(sittingId),
		tookMs: found.sitting.ended.getTime() - found.sitting.started.getTime(),
		endedAt: found.sitting.ended.toISOString(),
		outcome: sheet.outcome,
		packHashes: hashes,
		rules: rulesOf(db, hashes)
	};
}

/** Of the packs that a variant's items are made from, each once. */
export function packHashesOf(db: Database, paperId: string, variant: number): string[] {
	return [...new Set(itemsOf(db, paperId, variant).flatMap(({ packHash }) => packHash ?? []))].toSorted();
}

const withRules = z.object({ rules: z.object({ name: z.string() }) });

/** Names of the local rules of packs, of today or kept. */
export function rulesOf(db: Database, hashes: readonly string[]): string[] {
	const attempts = attemptsIn(db);
	const today = new Map([...packs().values()].map((pack) => [pack.hash, pack.rules.name]));
	const names = hashes.flatMap((hash) => {
		const kept = today.has(hash) ? undefined : attempts.packContent(hash);
		return today.get(hash) ?? (kept === undefined ? [] : withRules.parse(JSON.parse(kept)).rules.name);
	});
	return [...new Set(names)];
}

/** By which RFC 4122 turns names into UUIDs, version 5; drawn once for this product's sittings. */
const namespace = Buffer.from('6f0c6b52b3f84c0e9d1a52c6b2c4e7a9', 'hex');

/** A sitting's id as a UUID, always the same one. */
export function registrationOf(sittingId: string): string {
	const bytes = createHash('sha1').update(namespace).update(sittingId, 'utf8').digest().subarray(0, 16);
	bytes[6] = (bytes[6]! & 0x0f) | 0x50;
	bytes[8] = (bytes[8]! & 0x3f) | 0x80;
	const hex = bytes.toString('hex');
	return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
