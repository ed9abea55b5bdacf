/** A cohort's register: whose names are on it, how they join, and the time that they are allowed. */
import { randomBytes } from 'node:crypto';
import { and, asc, eq, isNull, sql } from 'drizzle-orm';
import { z } from 'zod';
import { appendAudit, type AuditKind } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { member, sitting, type MemberRow } from '../database/schema.ts';
import { readFields } from '../forms/read-form.ts';
import { conflict, done, missing, refused, type Missing, type RefusedForm } from '../outcomes.ts';
import { moveDeadlines } from '../sittings/later-deadlines.ts';
import { change, type By, type Changed } from './changing.ts';
import { newCode } from './codes.ts';
import { extraField, mostBytes, mostNames, readNames, textIn, type NamesGiven } from './names-given.ts';

/** `gone`: the account with which they joined was deleted. */
export type Standing = 'invited' | 'joined' | 'gone' | 'left';

export interface MemberLine {
	readonly id: string;
	readonly name: string;
	readonly reference: string | null;
	readonly extraPercent: number;
	readonly standing: Standing;
	readonly joined: Date | null;
	/** Of an invitation that can still be taken. */
	readonly code: string | null;
}

/** Names as they were given, read and not yet taken; or why they could not be read. */
export type Looked = { readonly outcome: 'looked'; readonly text: string; readonly given: NamesGiven } | Missing | RefusedForm;
export type Added = { readonly outcome: 'added'; readonly count: number } | Looked;

const extraForm = z.object({ extra: extraField });

export function standingOf({ learner, joined, left }: Pick<MemberRow, 'learner' | 'joined' | 'left'>): Standing {
	if (left !== null) return 'left';
	return learner !== null ? 'joined' : joined !== null ? 'gone' : 'invited';
}

/** Whether the own invitation of a line can be taken. */
export const isOpen = ({ code, joined, left }: Pick<MemberRow, 'code' | 'joined' | 'left'>): boolean =>
	code !== null && (joined === null || left !== null);

/** Everyone on the register of a cohort now. */
export const onRegister = (db: Database, cohortId: string): MemberRow[] =>
	db
		.select()
		.from(member)
		.where(and(eq(member.cohort, cohortId), isNull(member.left)))
		.orderBy(sql`${member.name} collate nocase`, asc(member.created))
		.all();

/** Whether whoever is on this line has begun a paper, so that the line has to stay. */
export const hasSat = (db: Database, memberId: string): boolean =>
	db.select({ id: sitting.id }).from(sitting).where(eq(sitting.member, memberId)).limit(1).get() !== undefined;

export function registerIn(db: Database) {
	const memberOf = (cohortId: string, memberId: string) =>
		db
			.select()
			.from(member)
			.where(and(eq(member.id, memberId), eq(member.cohort, cohortId)))
			.get();

	function audit(by: By, kind: AuditKind, subject: string, content: object): void {
		appendAudit(db, { at: by.now, by: by.assessor, cohort: by.cohort, kind, subject, content });
	}

	/** Reads names against the register as it stands. */
	function look(by: By, text: string): Looked {
		return change(db, by, ({ id }) => {
			if (Buffer.byteLength(text) > mostBytes) return refused(`That is more than ${mostBytes / 1000} kB, and no register is that long.`);
			const given = readNames(text, onRegister(db, id));
			return { outcome: 'looked' as const, text, given };
		});
	}

	return {
		/** All lines, those who left too, by name. */
		lines(cohortId: string): MemberLine[] {
			const rows = db
				.select()
				.from(member)
				.where(eq(member.cohort, cohortId))
				.orderBy(sql`${member.name} collate nocase`, asc(member.created))
				.all();
			return rows.map((row) => ({
				id: row.id,
				name: row.name,
				reference: row.reference,
				extraPercent: row.extraPercent,
				standing: standingOf(row),
				joined: row.joined,
				code: isOpen(row) ? row.code : null
			}));
		},

		/** Looks names over that were written, or that a file holds. */
		async lookOver(by: By, written: string, file: File | null): Promise<Looked> {
			if (file === null || file.size === 0) return look(by, written);
			if (file.size > mostBytes) return refused(`That file is larger than ${mostBytes / 1000} kB. A list of names is smaller.`);
			const text = textIn(new Uint8Array(await file.arrayBuffer()));
			return text === null ? refused('That file is no text. Save the list as CSV (comma-separated) and send that.') : look(by, text);
		},

		/** Adds all of them, each with an own invitation, or none where anything is wrong with one. */
		add(by: By, text: string): Added {
			return db.transaction(
				(): Added => {
					const looked = look(by, text);
					if (looked.outcome !== 'looked' || !looked.given.isSound) return looked;
					const { lines } = looked.given;
					if (onRegister(db, by.cohort).length + lines.length > mostNames)
						return refused(`A register has at most ${mostNames} names; with these it would have more.`);
					for (const { name, reference, extraPercent } of lines) {
						const row = { id: randomBytes(12).toString('base64url'), cohort: by.cohort, name, reference, extraPercent };
						db.insert(member)
							.values({ ...row, code: newCode(), created: new Date(by.now) })
							.run();
						audit(by, 'member-added', row.id, { extraPercent });
					}
					return { outcome: 'added', count: lines.length };
				},
				{ behavior: 'immediate' }
			);
		},

		/** Time beyond a paper's own. A sitting that runs gets what is more of it at once, and loses none. @param fields  `extra` in percent, unchecked */
		setExtra(by: By, memberId: string, fields: unknown): Changed {
			const { data, problems } = readFields(extraForm, fields);
			if (problems) return { outcome: 'refused', problems };
			return change(db, by, ({ id }) => {
				const row = memberOf(id, memberId);
				if (!row) return missing;
				if (row.extraPercent === data.extra) return done;
				db.update(member).set({ extraPercent: data.extra }).where(eq(member.id, memberId)).run();
				audit(by, 'extra-time', memberId, { before: row.extraPercent, after: data.extra });
				moveDeadlines(db, { member: memberId }, by.assessor, by.now);
				return done;
			});
		},

		/** Takes a name off the register. One that nobody joined as, and under which nothing was sat, goes altogether. */
		takeOff(by: By, memberId: string): Changed {
			return change(db, by, ({ id }) => {
				const row = memberOf(id, memberId);
				if (!row) return missing;
				if (row.left !== null) return done;
				if (row.learner === null && !hasSat(db, memberId)) db.delete(member).where(eq(member.id, memberId)).run();
				else
					db.update(member)
						.set({ left: new Date(by.now), code: null })
						.where(eq(member.id, memberId))
						.run();
				audit(by, 'member-left', memberId, { takenOff: true });
				return done;
			});
		},

		/** Invites a name anew: one that has not joined, that left, or whose account is gone. An invitation sent before is void. */
		inviteAgain(by: By, memberId: string): Changed {
			return change(db, by, ({ id }) => {
				const row = memberOf(id, memberId);
				if (!row) return missing;
				if (standingOf(row) === 'joined') return conflict('This name has joined, and needs no invitation.');
				db.update(member).set({ code: newCode(), joined: null }).where(eq(member.id, memberId)).run();
				audit(by, 'code-renewed', memberId, {});
				return done;
			});
		}
	};
}
