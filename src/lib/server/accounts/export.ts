/** All that is kept of one learner, as JSON, piece by piece: a long history is never held in memory as a whole. */
import { and, asc, eq, gt } from 'drizzle-orm';
import { database } from '../database/open.ts';
import { action, attempt, drill, fit, memory, review, round, roundItem } from '../database/schema.ts';
import { heldOf } from '../sittings/release.ts';
import { papersSat } from './export-papers.ts';
import { learnerById } from './learners.ts';

const version = 1;
const pageSize = 500;
const leftOut =
	'Left out: the hash of the password, the secret of the calendar, and the seed and the fault of a callout that is still running or of a drill that is not answered yet, since they would give it away; those of a paper until it may be told.';

/**
 * @param learnerId  whose; nobody else's rows are read
 * @param settings   what this browser keeps of their choices
 * @param now        [ms since 1970]
 * @returns the pieces of one JSON object; empty where there is no such learner
 */
export function* exportOf(learnerId: string, settings: object, now = Date.now()): Generator<string> {
	const row = learnerById(learnerId);
	if (!row) return;
	const { name, email, role, zone, retention, guest, created } = row;
	const account = { name, email, role, guest, zone, retention, hasCalendar: row.calendar !== null, created };
	const head = { kind: 'provewell-export', version, exported: new Date(now), leftOut, account, settings };
	yield JSON.stringify(head).slice(0, -1);
	for (const [title, rowsOf] of Object.entries(sections)) {
		yield `,\n${JSON.stringify(title)}:[`;
		let between = '\n';
		for (const one of rowsOf(learnerId, now)) {
			yield between + JSON.stringify(one);
			between = ',\n';
		}
		yield ']';
	}
	yield '}\n';
}

/** What follows the account, by title. Each reads a few rows at a time and holds no query open in between. */
const sections: Readonly<Record<string, (learnerId: string, now: number) => Iterable<object>>> = {
	*attempts(learnerId, now) {
		const held = heldOf(database(), learnerId, now).attempts;
		const ids = database()
			.select({ id: attempt.id })
			.from(attempt)
			.where(eq(attempt.learner, learnerId))
			.orderBy(asc(attempt.created))
			.all();
		for (const { id } of ids) {
			const one = database().select().from(attempt).where(eq(attempt.id, id)).get();
			if (!one) continue;
			const { learner: _, seed, fault, drawn, ...open } = one;
			yield { ...open, ...(one.ended && !held.has(id) && { seed, fault, drawn }), actions: actionsOf(id) };
		}
	},
	*drills(learnerId, now) {
		const held = heldOf(database(), learnerId, now).drills;
		const rows = database().select().from(drill).where(eq(drill.learner, learnerId)).orderBy(asc(drill.created)).all();
		for (const { learner: _, seed, answer, ...open } of rows)
			yield { ...open, ...(answer !== null && { ...(!held.has(open.id) && { seed }), answer: JSON.parse(answer) }) };
	},
	*reviews(learnerId) {
		let last = 0;
		for (;;) {
			const rows = database()
				.select()
				.from(review)
				.where(and(eq(review.learner, learnerId), gt(review.id, last)))
				.orderBy(asc(review.id))
				.limit(pageSize)
				.all();
			for (const { learner: _, id, ...one } of rows) {
				last = id;
				yield one;
			}
			if (rows.length < pageSize) return;
		}
	},
	*rounds(learnerId) {
		const rows = database().select().from(round).where(eq(round.learner, learnerId)).orderBy(asc(round.created)).all();
		for (const { learner: _, refresher, ...one } of rows) {
			yield { ...one, ...(refresher !== null && { refresher: JSON.parse(refresher) }), items: itemsOf(one.id) };
		}
	},
	papers: papersSat,
	*skills(learnerId) {
		const rows = database().select().from(memory).where(eq(memory.learner, learnerId)).orderBy(asc(memory.skill)).all();
		for (const { learner: _, content, ...one } of rows) yield { ...one, content: JSON.parse(content) };
	},
	*fits(learnerId) {
		const rows = database().select().from(fit).where(eq(fit.learner, learnerId)).orderBy(asc(fit.id)).all();
		for (const { learner: _, parameters, ...one } of rows) yield { ...one, parameters: JSON.parse(parameters) };
	}
};

function actionsOf(attemptId: string): object[] {
	const rows = database().select().from(action).where(eq(action.attempt, attemptId)).orderBy(asc(action.seq)).all();
	return rows.map(({ seq, at, content }) => ({ seq, at, ...JSON.parse(content) }));
}

/**
 * Without what is to be played: it holds seed and fault, which the attempt or the drill tells once it is over. The skill of a callout names
 * the area of its hidden fault, and waits until then too.
 */
function itemsOf(roundId: string): object[] {
	const rows = database()
		.select({ item: roundItem, ended: attempt.ended })
		.from(roundItem)
		.leftJoin(attempt, eq(attempt.id, roundItem.attempt))
		.where(eq(roundItem.round, roundId))
		.orderBy(asc(roundItem.place))
		.all();
	return rows.map(({ item: { place, skill, attempt, drill }, ended }) => ({ place, ...((drill || ended) && { skill }), attempt, drill }));
}
