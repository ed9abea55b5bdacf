/** The mark sheets of this process's database, as pages ask for them. */
import { database, type Database } from '../database/open.ts';
import { packs } from '../packs/packs.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { sendSoon } from '../records/outbox.ts';
import { sheetsFile, sheetsFileName } from './files.ts';
import { marking, type Marking } from './marking.ts';
import { changeMark, lockAll, lockSheet, markSecond, sheetAt, unlockSheet, type SheetAt } from './moderation.ts';
import { playedIn } from './played.ts';
import { replayPage } from './replay-page.ts';
import { markedAgain, sheetPage } from './sheet-page.ts';
import { sheetsPage } from './sheets-page.ts';

export type PaperAt = Omit<SheetAt, 'sitting'>;

export function sheetServiceIn(
	db: Database,
	known: ReadonlyMap<string, Pack>,
	{ results, unmarked }: Pick<Marking, 'results' | 'unmarked'>
) {
	const played = playedIn(db, known);
	/** What was locked is on its way to the record store. */
	function sent<Outcome extends { readonly outcome: string }>(locked: Outcome): Outcome {
		if (locked.outcome === 'done') sendSoon();
		return locked;
	}
	return {
		page: (assessorId: string, at: SheetAt, now = Date.now()) => sheetPage(db, played, assessorId, at, now),
		list: (assessorId: string, at: PaperAt, now = Date.now()) => sheetsPage(db, unmarked, assessorId, at, now),
		file: (assessorId: string, at: PaperAt, name: string, now = Date.now(), isTaken = true) =>
			sheetsFile(db, played, assessorId, at, { name, isTaken }, now),
		fileName: (assessorId: string, at: PaperAt, name: string) => sheetsFileName(db, assessorId, at, name),
		replay: (assessorId: string, at: SheetAt, slot: number, wanted: number | null) =>
			replayPage(db, { played, results }, assessorId, at, slot, wanted),
		/** Null where there is no such sheet among the assessor's own. */
		again: async (assessorId: string, at: SheetAt) => {
			const found = sheetAt(db, assessorId, at);
			return found && markedAgain(results, found.sheet);
		},
		change: (assessorId: string, at: SheetAt, wanted: unknown, now = Date.now()) => changeMark(db, assessorId, at, wanted, now),
		second: (assessorId: string, at: SheetAt, wanted: unknown, now = Date.now()) => markSecond(db, assessorId, at, wanted, now),
		lock: (assessorId: string, at: SheetAt, why: unknown, now = Date.now()) => sent(lockSheet(db, assessorId, at, why, now)),
		lockAll: (assessorId: string, at: PaperAt, now = Date.now()) => sent(lockAll(db, assessorId, at, now)),
		unlock: (assessorId: string, at: SheetAt, why: unknown, now = Date.now()) => unlockSheet(db, assessorId, at, why, now)
	};
}

let service: ReturnType<typeof sheetServiceIn> | undefined;
export function sheets() {
	service ??= sheetServiceIn(database(), packs(), marking());
	return service;
}
