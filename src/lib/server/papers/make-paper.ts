/** Papers made, copied and, until they are set, changed. */
import { randomUUID } from 'node:crypto';
import { count, eq } from 'drizzle-orm';
import { calloutField, drillField, type PaperFields } from '../../papers/fields.ts';
import { appendAudit } from '../audit/audit.ts';
import { paperOf, type AtCohort, type AtPaper } from '../cohorts/kept.ts';
import type { Database } from '../database/open.ts';
import { estimate, paper, variantItem, type PaperRow } from '../database/schema.ts';
import type { Problems } from '../forms/read-form.ts';
import { daysLater, instantOf, localTime } from '../local-time.ts';
import { missing, type Missing, type Refused } from '../outcomes.ts';
import type { Drawer } from './drawing.ts';
import { paperById } from './kept-paper.ts';
import { readPaper, type PaperSaid } from './paper-form.ts';
import type { PaperStock } from './stock.ts';
import { writableCohort, writableDraft } from './writable.ts';

type NotDone = Missing | Refused;
export interface Unfit {
	readonly outcome: 'unfit';
	readonly problems: Problems;
}
export type Made = { readonly outcome: 'made'; readonly id: string } | Unfit | NotDone;
export type Changed = { readonly outcome: 'changed' } | Unfit | NotDone;

/** What is written in the form, and by which clock. */
export interface Written {
	readonly fields: PaperFields;
	/** IANA name. */
	readonly zone: string;
}

/** How long a window is, unless it is said otherwise. */
const windowDays = 7;

/** From now for a week, by the clock on the wall. */
function usualWindow(zone: string, now: number): { readonly opens: string; readonly closes: string } {
	const opens = localTime(now, zone);
	return { opens, closes: daysLater(opens, windowDays) };
}

/** A form that could be sent as it is. Its figures are judgements of ours. */
export function blankFields(db: Database, cohortId: string, { families, drills }: PaperStock, zone: string, now: number): PaperFields {
	const made = db.select({ count: count() }).from(paper).where(eq(paper.cohort, cohortId)).get()!.count;
	const [first, ...others] = families;
	const counts = [
		...(first ? [[calloutField(first.id, null), others.length > 0 ? '2' : '3']] : []),
		...others.slice(0, 1).map(({ id }) => [calloutField(id, null), '1']),
		...drills.slice(0, 2).map(({ id }) => [drillField(id), '2'])
	];
	return {
		...Object.fromEntries(counts),
		title: `Paper ${made + 1}`,
		mode: 'formal',
		minutes: '',
		attempts: '1',
		variantCount: '3',
		passMark: '60',
		noDanger: 'on',
		cured: '2',
		...usualWindow(zone, now)
	};
}

export interface Makers {
	readonly stock: () => PaperStock;
	readonly drawer: Drawer;
}

export function paperMakersIn(db: Database, { stock, drawer }: Makers) {
	function add(
		cohortId: string,
		by: string,
		said: Omit<PaperRow, 'id' | 'cohort' | 'created' | 'createdBy' | 'set'>,
		now: number,
		copyOf?: string
	) {
		const row: PaperRow = { ...said, id: randomUUID(), cohort: cohortId, created: new Date(now), createdBy: by, set: null };
		db.insert(paper).values(row).run();
		const content = copyOf === undefined ? {} : { copyOf };
		appendAudit(db, { at: now, by, cohort: cohortId, kind: 'paper-made', subject: row.id, content });
		return row;
	}

	return {
		make(at: AtCohort, { fields, zone }: Written, now: number): Made {
			const into = writableCohort(db, at);
			if ('outcome' in into) return into;
			const { said, problems } = readPaper(fields, zone, stock());
			if (problems) return { outcome: 'unfit', problems };
			const row = db.transaction(() => add(at.cohort, at.assessor, asColumns(said), now), { behavior: 'immediate' });
			drawer.draw(row);
			return { outcome: 'made', id: row.id };
		},

		/** Everything in a draft can be changed; what changes its variants has them drawn afresh, and what judges said of the places is put away. */
		change(at: AtPaper, { fields, zone }: Written): Changed {
			const { said, problems } = readPaper(fields, zone, stock());
			const changed = db.transaction(
				(): Changed | PaperRow => {
					const before = writableDraft(db, at);
					if ('outcome' in before) return before;
					if (problems) return { outcome: 'unfit', problems };
					const columns = { ...asColumns(said), ...sameInstants(before, said, fields, zone) };
					db.update(paper).set(columns).where(eq(paper.id, at.paper)).run();
					const isOther = columns.blueprint !== before.blueprint;
					if (isOther) db.delete(estimate).where(eq(estimate.paper, at.paper)).run();
					if (!isOther && columns.variantCount === before.variantCount) return { outcome: 'changed' };
					db.delete(variantItem).where(eq(variantItem.paper, at.paper)).run();
					return paperById(db, at.paper)!;
				},
				{ behavior: 'immediate' }
			);
			if ('outcome' in changed) return changed;
			drawer.draw(changed);
			return { outcome: 'changed' };
		},

		/** The same blueprint with other callouts and figures. Those from before stand until the new ones are there. */
		redraw(at: AtPaper): { readonly outcome: 'drawing' } | NotDone {
			const row = writableDraft(db, at);
			if ('outcome' in row) return row;
			drawer.draw(row);
			return { outcome: 'drawing' };
		},

		/** The same paper for another cohort or another term: a draft, with variants of its own. */
		copy(at: AtPaper, to: string, zone: string, now: number): Made {
			const from = paperOf(db, at.assessor, at.cohort, at.paper);
			if (!from) return missing;
			const into = writableCohort(db, { assessor: at.assessor, cohort: to });
			if ('outcome' in into) return into;
			const window = usualWindow(zone, now);
			const { title, mode, blueprint, passRule, minutes, attempts, variantCount } = from.paper;
			const said = { title, mode, blueprint, passRule, minutes, attempts, variantCount, ...asInstants(window, zone) };
			const row = db.transaction(() => add(to, at.assessor, said, now, at.paper), { behavior: 'immediate' });
			drawer.draw(row);
			return { outcome: 'made', id: row.id };
		}
	};
}

const asColumns = ({ blueprint, passRule, ...said }: PaperSaid) => ({
	...said,
	blueprint: JSON.stringify(blueprint),
	passRule: JSON.stringify(passRule)
});

const asInstants = ({ opens, closes }: { opens: string; closes: string }, zone: string) => ({
	opens: new Date(instantOf(opens, zone)!),
	closes: new Date(instantOf(closes, zone)!)
});

/** A time that was left as the form showed it stays the instant that it was: of an hour that comes twice, a form can say only the first. */
function sameInstants(before: PaperRow, said: PaperSaid, fields: PaperFields, zone: string): Pick<PaperRow, 'opens' | 'closes'> {
	const kept = (name: 'opens' | 'closes') => {
		const at = before[name];
		return at && fields[name]?.slice(0, 16) === localTime(at.getTime(), zone) ? at : said[name];
	};
	return { opens: kept('opens'), closes: kept('closes') };
}
