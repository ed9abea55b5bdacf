/**
 * The record of practice: what one person has practised and sat, for print. Whoever sees another's sees sums, and no single practice callout.
 * What belongs to a sitting is told by its paper's line alone, and only once it may be told.
 */
import { and, asc, eq } from 'drizzle-orm';
import { dateOf, dayOf } from '#shared/review/memory/learner-day.ts';
import { cohortOf } from '../cohorts/kept.ts';
import { database, type Database } from '../database/open.ts';
import { cohort, learner, member, type CohortRow, type MemberRow } from '../database/schema.ts';
import { packs } from '../packs/packs.ts';
import { practice, type Practice } from '../practice/practice.ts';
import { paperLines, type SatLine } from './paper-lines.ts';
import { practisedIn, type PracticeDone } from './practice-done.ts';

/** Dates as they stand in an address, unchecked: `2026-03-29`. */
export interface AskedPeriod {
	readonly from: string | null;
	readonly to: string | null;
}

export interface PracticeRecord {
	/** As the register has it; as the account has it for one who is on none. */
	readonly name: string;
	readonly cohorts: readonly {
		readonly name: string;
		readonly as: string;
		readonly reference: string | null;
		readonly invented: boolean;
		/** When they left it or were taken off its register; null while they are on it. */
		readonly left: Date | null;
	}[];
	/** The first and the last of the learner's days that count: `2026-03-29`. */
	readonly from: string;
	readonly to: string;
	readonly made: Date;
	readonly zone: string;
	readonly rules: readonly string[];
	/** Null where no account stands behind the name: never joined, left, or deleted since. */
	readonly practice: PracticeDone | null;
	readonly papers: readonly SatLine[];
}

type Line = { readonly member: MemberRow; readonly cohort: CohortRow };

export function recordsOf(db: Database, services: Pick<Practice, 'memories' | 'plans'>) {
	const practised = practisedIn(db, services);

	function drawUp(name: string, lines: readonly Line[], learnerId: string | null, since: number | null, asked: AskedPeriod, now: number) {
		const { zone } = services.memories.schedulerOf(learnerId);
		const today = dateOf(dayOf(now, zone));
		const began = learnerId === null ? null : (since ?? practised.first(learnerId));
		// What an assessor asks for does not reach back to before the learner joined.
		const earliest = began === null ? today : dateOf(dayOf(began, zone));
		const asFrom = dateIn(asked.from);
		const from = asFrom === null || (since !== null && asFrom < earliest) ? earliest : asFrom;
		const to = dateIn(asked.to) ?? today;
		const papers = lines.flatMap((line) => paperLines(db, line.member.id, line.cohort.name, now));
		return {
			name,
			cohorts: lines.map(({ member, cohort: { name, invented } }) => {
				const { name: as, reference, left } = member;
				return { name, as, reference, invented, left };
			}),
			...{ from, to, zone, made: new Date(now) },
			rules: [...new Set([...packs().values()].map(({ rules }) => rules.name))],
			practice: learnerId === null ? null : practised.between(learnerId, from, to, zone, now),
			papers: papers.filter(({ ended }) => within(dateOf(dayOf(ended.getTime(), zone)), from, to, learnerId === null))
		} satisfies PracticeRecord;
	}

	return {
		/** A learner's own, over every register they are on. */
		own(learnerId: string, asked: AskedPeriod, now: number): PracticeRecord | null {
			const account = db.select({ name: learner.name }).from(learner).where(eq(learner.id, learnerId)).get();
			if (!account) return null;
			const lines = db
				.select({ member, cohort })
				.from(member)
				.innerJoin(cohort, eq(cohort.id, member.cohort))
				.where(eq(member.learner, learnerId))
				.orderBy(asc(member.created))
				.all();
			return drawUp(lines.at(-1)?.member.name ?? account.name ?? '', lines, learnerId, null, asked, now);
		},

		/** Of one on a register, for an assessor who keeps it: from the day they joined on. Null where it is not theirs to see. */
		ofMember(assessorId: string, cohortId: string, memberId: string, asked: AskedPeriod, now: number): PracticeRecord | null {
			const kept = cohortOf(db, assessorId, cohortId);
			const found =
				kept &&
				db
					.select()
					.from(member)
					.where(and(eq(member.id, memberId), eq(member.cohort, cohortId)))
					.get();
			if (!found) return null;
			// Who has left practises for themselves.
			const learnerId = found.left === null ? found.learner : null;
			return drawUp(found.name, [{ member: found, cohort: kept }], learnerId, (found.joined ?? found.created).getTime(), asked, now);
		}
	};
}

/** Papers of a line without an account have no zone of anybody's to have a date in: all of them count. */
const within = (date: string, from: string, to: string, all: boolean) => all || (date >= from && date <= to);

const dateIn = (text: string | null) => (text !== null && /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(Date.parse(text)) ? text : null);

const service = () => recordsOf(database(), practice());
export const ownRecord = (learnerId: string, asked: AskedPeriod, now = Date.now()) => service().own(learnerId, asked, now);
export const memberRecord = (assessorId: string, cohortId: string, memberId: string, asked: AskedPeriod, now = Date.now()) =>
	service().ofMember(assessorId, cohortId, memberId, asked, now);
