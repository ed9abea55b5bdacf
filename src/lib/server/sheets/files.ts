/** The marks of a paper as tables for other programs. Times are UTC, ISO 8601; marks are those after moderation unless a column says otherwise. */
import { criteria } from '#shared/marking/mark-sheet.ts';
import { appendAudit } from '../audit/audit.ts';
import { paperOf } from '../cohorts/kept.ts';
import { stateText } from '$lib/sheets/state-text.ts';
import { ruleInWords } from '#shared/assessment/rule-in-words.ts';
import { csvOf } from '../csv.ts';
import type { Database } from '../database/open.ts';
import type { PaperRow } from '../database/schema.ts';
import { itemsOf, passRuleOf } from '../papers/kept-paper.ts';
import { packHashesOf, rulesOf } from '../records/sat-paper.ts';
import { itemName } from './item-names.ts';
import type { SheetAt } from './moderation.ts';
import type { Played } from './played.ts';
import { sheetsOf, type Sheet } from './sheet.ts';
import { lineOf, type Share } from './sheets-page.ts';

type Field = string | number | null;
interface Table {
	readonly header: readonly string[];
	readonly rows: readonly (readonly Field[])[];
}

const time = (at: Date | null) => at?.toISOString() ?? null;
const yes = (one: boolean) => (one ? 'yes' : 'no');
const share = ({ got, outOf }: Share): Field[] => (outOf === 0 ? [null, null] : [got, outOf]);
const who = ({ member, sitting }: Sheet): Field[] => [member.name, member.reference, sitting.variant, sitting.number];
const whoNames = ['name', 'reference', 'variant', 'attempt'];

/** What of a row says where it comes from, once it lies among rows of other papers. */
interface From {
	readonly cohort: string;
	readonly rule: string;
	readonly rulesOf: (variant: number) => string;
}
const fromNames = ['paper', 'cohort', 'mode', 'pass rule', 'rules in force', 'member id', 'changed by moderation', 'second marked'];
const seconded = { agrees: 'agrees', disagrees: 'does not agree' } as const;
const from = ({ paper, member, sitting, changes, second }: Sheet, { cohort, rule, rulesOf }: From): Field[] => [
	...[paper.title, cohort, paper.mode, rule, rulesOf(sitting.variant), member.id],
	...[yes(changes.length > 0), second === null ? 'no' : seconded[second]]
];

function fromOf(db: Database, paper: PaperRow, cohort: string): From {
	const known = new Map<number, string>();
	const rulesOfVariant = (variant: number) => {
		const found = known.get(variant) ?? rulesOf(db, packHashesOf(db, paper.id, variant)).join(', ');
		known.set(variant, found);
		return found;
	};
	return { cohort, rule: ruleInWords(passRuleOf(paper)), rulesOf: rulesOfVariant };
}

/** One row a sitting. */
function results(sheets: readonly Sheet[], of: From, now: number): Table {
	return {
		header: [
			...whoNames,
			'began',
			'ended',
			'ended by',
			...criteria.flatMap((criterion) => [criterion, `${criterion} out of`]),
			'drills',
			'drills out of',
			'never begun out of',
			'marks',
			'out of',
			'percent',
			'passed',
			'because',
			'state',
			'locked',
			...fromNames
		],
		rows: sheets.map((sheet) => {
			const { sitting, outcome } = sheet;
			const line = lineOf(sheet, now);
			return [
				...who(sheet),
				time(sitting.started),
				time(sitting.ended),
				sitting.endedBy,
				...criteria.flatMap((criterion) => share(line.byCriterion[criterion])),
				...share(line.drills),
				line.untried.outOf,
				outcome.got,
				outcome.outOf,
				outcome.percent,
				yes(outcome.passed),
				outcome.because.join(' '),
				stateText(sheet).toLowerCase(),
				time(sitting.locked),
				...from(sheet, of)
			];
		})
	};
}

/** One row a line of a bill; a drill and what was never begun have one of their own; a mark that was changed has one as well. */
function lines(db: Database, sheets: readonly Sheet[], of: From, played: Played): Table {
	const rows = sheets.flatMap((sheet) => {
		const items = itemsOf(db, sheet.paper.id, sheet.sitting.variant);
		return sheet.results.flatMap((result, slot): Field[][] => {
			const item = items[slot]!;
			const row = (criterion: string | null, event: number | null, minute: number | null, lost: number | null, says: string): Field[] => [
				...who(sheet),
				slot + 1,
				itemName(item),
				criterion,
				event === null ? null : event + 1,
				minute,
				lost,
				says,
				item.packHash,
				item.seed,
				...from(sheet, of)
			];
			const changed = sheet.changes
				.filter((change) => change.slot === slot)
				.map(({ criterion, before, after, reason }) =>
					row(criterion, null, null, before - after, `Changed from ${before} to ${after}: ${reason}`)
				);
			if (result.kind === 'untried') return [row(null, null, null, sheet.marks[slot]!.outOf, 'Not done.'), ...changed];
			if (result.kind === 'drill') {
				const says = `${result.right ? 'Right' : 'Not right'}: ${result.said.join('; ')}. The answer: ${result.answer.join('; ')}.`;
				return [row(null, null, null, result.right ? 0 : sheet.marks[slot]!.outOf, says), ...changed];
			}
			const events = played.callout(sheet.sitting.id, slot)?.state.events ?? [];
			const minuteOf = (event: number | null) => (event === null || !events[event] ? null : events[event].minute + events[event].minutes);
			return [
				...result.sheet.lines.map(({ criterion, event, lost, says }) => row(criterion, event, minuteOf(event), lost, says)),
				...changed
			];
		});
	});
	return {
		header: [...whoNames, 'item', 'item name', 'criterion', 'action', 'minute', 'lost', 'says', 'pack hash', 'seed', ...fromNames],
		rows
	};
}

/**
 * A file of a paper's marks; that it was taken out stands in the audit trail.
 * @param wanted.isTaken  false where its head alone was asked for
 * @param wanted.name  in the address, without its ending
 * @returns null where there is no such file, or no such paper among the assessor's own
 */
export function sheetsFile(
	db: Database,
	played: Played,
	assessorId: string,
	at: Omit<SheetAt, 'sitting'>,
	wanted: { readonly name: string; readonly isTaken: boolean },
	now: number
): string | null {
	return db.transaction(
		() => {
			const { name, isTaken } = wanted;
			const own = paperOf(db, assessorId, at.cohort, at.paper);
			if (!own || (name !== 'results' && name !== 'lines')) return null;
			const sheets = sheetsOf(db, at.paper);
			const of = fromOf(db, own.paper, own.cohort.name);
			const { header, rows } = name === 'results' ? results(sheets, of, now) : lines(db, sheets, of, played);
			const content = { file: name, rows: rows.length };
			if (isTaken) appendAudit(db, { at: now, by: assessorId, cohort: at.cohort, kind: 'exported', subject: at.paper, content });
			return csvOf(header, rows);
		},
		{ behavior: 'immediate' }
	);
}

/**
 * What such a file is saved as: with the paper's title, in letters that every file system takes.
 * @returns null where there is no such paper among the assessor's own
 */
export function sheetsFileName(db: Database, assessorId: string, at: Omit<SheetAt, 'sitting'>, name: string): string | null {
	const own = paperOf(db, assessorId, at.cohort, at.paper);
	return own && ['provewell', plainName(own.paper.title), `${name}.csv`].filter((part) => part !== '').join('-');
}

const plainName = (title: string): string =>
	title
		.normalize('NFKD')
		.replace(/\p{M}/gu, '')
		.toLowerCase()
		.replace(/[^a-z0-9]+/g, '-')
		.slice(0, 60)
		.replace(/^-+|-+$/g, '');
