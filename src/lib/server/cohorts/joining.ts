/** Joining a cohort by a code, and leaving it. */
import { randomBytes } from 'node:crypto';
import { and, asc, eq, gt, isNull } from 'drizzle-orm';
import { addressOf } from '../accounts/address.ts';
import { countLookUp } from '../accounts/limits.ts';
import type { Learner } from '../accounts/learners.ts';
import { nameKeyOf } from '../accounts/names.ts';
import { appendAudit } from '../audit/audit.ts';
import type { Database } from '../database/open.ts';
import { cohort, cohortAssessor, learner, member, paper, sitting, type CohortRow, type MemberRow } from '../database/schema.ts';
import { codeFrom } from './codes.ts';
import { mostNames } from './names-given.ts';
import { isOpen, onRegister, standingOf } from './register.ts';

/** What a code opens to one who looks at it. */
export type Invitation =
	| { readonly outcome: 'unknown'; readonly says: string }
	| { readonly outcome: 'limited'; readonly says: string }
	| { readonly outcome: 'closed'; readonly cohort: string; readonly says: string }
	| { readonly outcome: 'joined'; readonly cohort: string; readonly name: string }
	| {
			readonly outcome: 'open';
			readonly code: string;
			readonly cohort: string;
			/** Whose invitation it is; null for the cohort's own code. */
			readonly name: string | null;
			/** By the cohort's own code: the one line of the register that has the account's name and waits for somebody. */
			readonly perhaps: Pick<MemberRow, 'id' | 'name' | 'reference'> | null;
			/** Who keeps the cohort and will see. */
			readonly assessors: readonly string[];
	  };

/** `asked`: a line has the account's name, and it was not said whether it is theirs. */
export type Joined =
	| { readonly outcome: 'joined'; readonly cohort: string }
	| { readonly outcome: 'asked'; readonly says: string }
	| Exclude<Invitation, { outcome: 'open' | 'joined' }>;

/** A cohort as its learner sees it. */
export interface OwnCohort {
	readonly id: string;
	readonly cohort: string;
	readonly name: string;
	/** Title of a paper of it that the learner sits now. */
	readonly running: string | null;
}

interface Held {
	readonly cohort: CohortRow;
	/** The line of an own invitation. */
	readonly line: MemberRow | null;
}
type Visit = { getClientAddress(): string };

const unknown = {
	outcome: 'unknown',
	says: 'No invitation has that code. It may be mistyped, or it was renewed or taken back: ask whoever gave it to you.'
} as const;
const spent = 'This invitation has been used. Ask whoever gave it to you for another.';

export function joiningIn(db: Database) {
	function holding(code: string): Held | null {
		const own = db
			.select({ cohort, line: member })
			.from(member)
			.innerJoin(cohort, eq(cohort.id, member.cohort))
			.where(eq(member.code, code))
			.get();
		if (own) return own;
		const common = db.select().from(cohort).where(eq(cohort.code, code)).get();
		return common ? { cohort: common, line: null } : null;
	}

	/** What the code opens. A code that opens nothing is a try, and those are limited. */
	function tryCode(
		visit: Visit,
		learner: Learner | null,
		said: string,
		now: number
	): Held | Exclude<Invitation, { outcome: 'open' | 'joined' | 'closed' }> {
		const tried = countLookUp({ learnerId: learner?.id, address: addressOf(visit) }, now);
		if (tried.says !== undefined) return { outcome: 'limited', says: tried.says };
		const code = codeFrom(said);
		const held = code === null ? null : holding(code);
		if (!held || held.cohort.invented) return unknown;
		tried.forgive();
		return held;
	}

	function lineOf(learnerId: string, cohortId: string): MemberRow | undefined {
		return db
			.select()
			.from(member)
			.where(and(eq(member.learner, learnerId), eq(member.cohort, cohortId)))
			.get();
	}

	/** Why it cannot be taken by this learner; null where it can. */
	function closed({ cohort: { name, archived }, line }: Held, learnerId: string | null): Invitation | null {
		if (archived) return { outcome: 'closed', cohort: name, says: `The cohort ${name} is archived. Nobody joins it any more.` };
		const isOthers = line !== null && (!isOpen(line) || (line.learner !== null && learnerId !== null && line.learner !== learnerId));
		return isOthers ? { outcome: 'closed', cohort: name, says: spent } : null;
	}

	/** Why this learner of all cannot take it; null where they can. @param own  their line of the register, where there is one */
	function notTheirs({ cohort: { id, name }, line }: Held, learnerId: string, own: MemberRow | null | undefined): Invitation | null {
		const kept = and(eq(cohortAssessor.cohort, id), eq(cohortAssessor.assessor, learnerId));
		if (db.select().from(cohortAssessor).where(kept).get())
			return { outcome: 'closed', cohort: name, says: 'You keep this cohort. Whoever keeps one is not on its register.' };
		// One person would be two on the register, and what was sat under one name would count for another.
		if (!own || line === null || line.id === own.id) return null;
		const says = `You ${own.left === null ? 'are' : 'were'} on this register as ${own.name}; ask your assessor.`;
		return { outcome: 'closed', cohort: name, says };
	}

	function invitation(visit: Visit, learner: Learner | null, said: string, now: number): Invitation {
		const held = tryCode(visit, learner, said, now);
		if ('outcome' in held) return held;
		const own = learner && lineOf(learner.id, held.cohort.id);
		const isOn = own !== null && own !== undefined && own.left === null;
		// On the register, and this is no other's invitation that would put a name to them.
		if (isOn && (held.line === null || held.line.id === own.id)) return { outcome: 'joined', cohort: held.cohort.name, name: own.name };
		const cannot = closed(held, learner?.id ?? null) ?? (learner && notTheirs(held, learner.id, own));
		if (cannot) return cannot;
		const code = held.line?.code ?? held.cohort.code!;
		const perhaps = held.line === null && learner !== null && !own ? namesake(held.cohort.id, learner) : null;
		const open = { outcome: 'open', code, cohort: held.cohort.name, name: held.line?.name ?? null } as const;
		return { ...open, perhaps, assessors: assessorsOf(held.cohort.id) };
	}

	/** The line that has the learner's name and that nobody has joined as; null where there is none, or more than one. */
	function namesake(cohortId: string, { name, guest }: Learner): Pick<MemberRow, 'id' | 'name' | 'reference'> | null {
		if (name === null || guest) return null;
		const key = nameKeyOf(name);
		const named = onRegister(db, cohortId).filter((line) => standingOf(line) === 'invited' && nameKeyOf(line.name) === key);
		const [line] = named;
		return line && named.length === 1 ? { id: line.id, name: line.name, reference: line.reference } : null;
	}

	function assessorsOf(cohortId: string): string[] {
		return db
			.select({ name: learner.name })
			.from(cohortAssessor)
			.innerJoin(learner, eq(learner.id, cohortAssessor.assessor))
			.where(eq(cohortAssessor.cohort, cohortId))
			.orderBy(asc(cohortAssessor.since))
			.all()
			.flatMap(({ name }) => name ?? []);
	}

	/** Puts the learner on the register: on the line that invites them, on the one that was theirs before, or on a new one. */
	function take({ cohort: { id }, line }: Held, { id: learnerId, name }: Learner, now: number): string {
		const before = lineOf(learnerId, id);
		const joined = { learner: learnerId, joined: new Date(now), left: null };
		if (!before && line) {
			db.update(member).set(joined).where(eq(member.id, line.id)).run();
			return line.id;
		}
		if (!before) {
			const row = { id: randomBytes(12).toString('base64url'), cohort: id, name: name ?? '', created: new Date(now), ...joined };
			db.insert(member).values(row).run();
			return row.id;
		}
		db.update(member)
			.set({ ...joined, joined: before.left === null ? before.joined : joined.joined })
			.where(eq(member.id, before.id))
			.run();
		return before.id;
	}

	return {
		/** What a code says to this learner, guest or visitor. @param now [ms since 1970] */
		invitation,

		/**
		 * Joins. Joining twice is joining once.
		 * @param as  the id of the line that waits under the learner's name, or `new`, where that was asked
		 */
		join(visit: Visit, learner: Learner, said: string, now: number, as: string | null = null): Joined {
			return db.transaction(
				(): Joined => {
					const found = invitation(visit, learner, said, now);
					if (found.outcome === 'joined') return { outcome: 'joined', cohort: found.cohort };
					if (found.outcome !== 'open') return found;
					const { perhaps } = found;
					if (perhaps && as !== 'new' && as !== perhaps.id) return { outcome: 'asked', says: `Say whether you are ${perhaps.name}.` };
					const opened = holding(found.code)!;
					const own = perhaps && as === perhaps.id ? db.select().from(member).where(eq(member.id, perhaps.id)).get() : undefined;
					const held = own ? { ...opened, line: own } : opened;
					const isMore = held.line === null && !lineOf(learner.id, held.cohort.id);
					if (isMore && onRegister(db, held.cohort.id).length >= mostNames) {
						return { outcome: 'closed', cohort: found.cohort, says: 'The register is full. Ask whoever gave you the code.' };
					}
					const subject = take(held, learner, now);
					const content = { joined: opened.line !== null ? 'by invitation' : own ? 'by the code, as named there' : 'by the code' };
					appendAudit(db, { at: now, by: learner.id, cohort: held.cohort.id, kind: 'member-added', subject, content });
					return { outcome: 'joined', cohort: found.cohort };
				},
				{ behavior: 'immediate' }
			);
		},

		/** The cohorts that a learner is in, by their line of the register. @param now [ms since 1970] */
		own(learnerId: string, now: number): OwnCohort[] {
			const runs = and(eq(member.learner, learnerId), isNull(sitting.ended), gt(sitting.deadline, new Date(now)));
			const sat = db
				.select({ member: sitting.member, title: paper.title })
				.from(sitting)
				.innerJoin(member, eq(member.id, sitting.member))
				.innerJoin(paper, eq(paper.id, sitting.paper))
				.where(runs)
				.all();
			const titles = new Map(sat.map(({ member, title }) => [member, title]));
			return db
				.select({ id: member.id, cohort: cohort.name, name: member.name })
				.from(member)
				.innerJoin(cohort, eq(cohort.id, member.cohort))
				.where(and(eq(member.learner, learnerId), isNull(member.left)))
				.orderBy(asc(cohort.name))
				.all()
				.map((line) => ({ ...line, running: titles.get(line.id) ?? null }));
		},

		/** Leaves. Papers that were sat stay with the cohort; practice is nobody's to see any more. Leaving twice is leaving once. */
		leave(learnerId: string, memberId: string, now: number): void {
			db.transaction(
				() => {
					const own = and(eq(member.id, memberId), eq(member.learner, learnerId), isNull(member.left));
					const row = db.select().from(member).where(own).get();
					if (!row) return;
					db.update(member)
						.set({ left: new Date(now), code: null })
						.where(own)
						.run();
					appendAudit(db, {
						at: now,
						by: learnerId,
						cohort: row.cohort,
						kind: 'member-left',
						subject: memberId,
						content: { takenOff: false }
					});
				},
				{ behavior: 'immediate' }
			);
		}
	};
}
