/** The form of a paper: what is written in it, read into a paper, and a paper written back into it. */
import { z } from 'zod';
import { blueprint, mostSlots, slotsOf, type Blueprint, type BlueprintLine } from '#shared/assessment/blueprint.ts';
import type { PassRule } from '#shared/assessment/pass-rule.ts';
import { calloutField, drillField, suggestedMinutes, type PaperFields } from '../../papers/fields.ts';
import { isLegible } from '../accounts/names.ts';
import { paperModes, type PaperRow } from '../database/schema.ts';
import type { Problems } from '../forms/read-form.ts';
import { instantOf, localTime } from '../local-time.ts';
import { blueprintOf, passRuleOf } from './kept-paper.ts';
import type { PaperStock } from './stock.ts';

/** What an assessor says of a paper. */
export interface PaperSaid {
	readonly title: string;
	readonly mode: (typeof paperModes)[number];
	readonly blueprint: Blueprint;
	readonly passRule: PassRule;
	readonly minutes: number;
	readonly attempts: number;
	readonly variantCount: number;
	readonly opens: Date;
	readonly closes: Date;
}

export type PaperRead = { readonly said: PaperSaid; readonly problems?: never } | { readonly problems: Problems; readonly said?: never };

export const limits = { minutes: 480, attempts: 6, variants: 6, title: 80 } as const;

const whole = (least: number, most: number) =>
	z
		.string(`A whole number from ${least} to ${most}.`)
		.trim()
		.regex(/^\d{1,4}$/, `A whole number from ${least} to ${most}.`)
		.transform(Number)
		.refine((n) => n >= least && n <= most, `A whole number from ${least} to ${most}.`);

/** To a tenth, as a standard from judges gives it. */
const aPercentage = 'A percentage from 0 to 100, to a tenth at most.';

const fieldsOf = z.object({
	title: z
		.string('Give it a title.')
		.transform((title) => title.trim().replace(/\s+/g, ' '))
		.refine((title) => title.length >= 2 && title.length <= limits.title, `A title has 2 to ${limits.title} characters.`)
		.refine(isLegible, 'This title holds what cannot be read. Write it anew.')
		.refine((title) => /[\p{L}\p{N}]/u.test(title), 'A title has at least one letter or figure.'),
	mode: z.enum(paperModes, 'Practice or formal.'),
	minutes: z.literal('').or(whole(5, limits.minutes)),
	attempts: whole(1, limits.attempts),
	variantCount: whole(1, limits.variants),
	passMark: z
		.string(aPercentage)
		.trim()
		.regex(/^\d{1,3}(\.\d)?$/, aPercentage)
		.transform(Number)
		.refine((percent) => percent <= 100, aPercentage),
	noDanger: z.literal('on').optional(),
	cured: whole(0, 20)
});

/** @param zone  IANA name of the zone whose clock the window is written by */
export function readPaper(fields: PaperFields, zone: string, stock: PaperStock): PaperRead {
	const parsed = fieldsOf.safeParse(fields);
	const problems: Record<string, string> = {};
	for (const { path, message } of parsed.error?.issues ?? []) problems[String(path[0])] ??= message;
	const asked = readBlueprint(fields, stock);
	if ('says' in asked) problems['blueprint'] = asked.says;
	const window = readWindow(fields, zone);
	if ('problems' in window) Object.assign(problems, window.problems);
	if (!parsed.success || 'says' in asked || 'problems' in window) return { problems };
	const { passMark, noDanger, cured, minutes, ...rest } = parsed.data;
	const callouts = slotsOf(asked).filter(({ kind }) => kind === 'callout').length;
	if (cured > callouts)
		return { problems: { cured: `The paper has ${callouts} ${callouts === 1 ? 'callout' : 'callouts'}; no more can be cured.` } };
	if (rest.attempts > rest.variantCount)
		return { problems: { variantCount: `For ${rest.attempts} attempts there are as many variants, so that nobody meets one twice.` } };
	const passRule = { mark: passMark, noDanger: noDanger === 'on', cured };
	return { said: { ...rest, minutes: minutes || suggestedMinutes(stock.minutesOf, fields), blueprint: asked, passRule, ...window } };
}

/** Counts by family and area, and by kind of drill, in the order of the stock. What the stock has not is refused, whatever sent it. */
function readBlueprint(fields: PaperFields, { families, areas, drills }: PaperStock): Blueprint | { readonly says: string } {
	const callouts = families.flatMap((family): (Omit<Extract<BlueprintLine, { kind: 'callout' }>, 'count'> & { field: string })[] =>
		[null, ...areas.map(({ id }) => id).filter((id) => family.areas.includes(id))].map((area) => ({
			kind: 'callout',
			family: family.id,
			area,
			field: calloutField(family.id, area)
		}))
	);
	const known = [...callouts, ...drills.map(({ id }) => ({ kind: 'drill' as const, drill: id, field: drillField(id) }))];
	const names = new Set(known.map(({ field }) => field));
	const written = Object.entries(fields).filter(([name]) => name.startsWith('callout/') || name.startsWith('drill/'));
	if (written.some(([name]) => !names.has(name))) return { says: 'The table asks for something that is not in stock here.' };
	if (written.some(([, count]) => !/^\s*(\d{1,2})?\s*$/.test(count))) return { says: 'Each number is a whole one from 0 to 20.' };
	const lines = known.map(({ field, ...line }) => ({ ...line, count: Number(fields[field] ?? 0) })).filter(({ count }) => count > 0);
	if (lines.length === 0) return { says: 'Ask for at least one callout or drill.' };
	if (lines.some(({ count }) => count > 20)) return { says: 'Each number is a whole one from 0 to 20.' };
	const parsed = blueprint.safeParse({ lines });
	return parsed.success ? parsed.data : { says: `A paper has at most ${mostSlots} items.` };
}

/** Longer than any term: beyond it a mistyped year is likelier. */
export const mostWindowDays = 366;
export const mostWindowMs = mostWindowDays * 86_400_000;
export const tooLong = `A window is at most ${mostWindowDays} days long. Look at the year.`;

const noTime = 'A date and a time, such as 2026-03-12 09:30.';

function readWindow(fields: PaperFields, zone: string): Pick<PaperSaid, 'opens' | 'closes'> | { readonly problems: Problems } {
	const [opens, closes] = [instantOf(fields['opens'] ?? '', zone), instantOf(fields['closes'] ?? '', zone)];
	if (opens === null || closes === null)
		return { problems: { ...(opens === null && { opens: noTime }), ...(closes === null && { closes: noTime }) } };
	if (closes <= opens) return { problems: { closes: 'It closes after it opens.' } };
	if (closes - opens > mostWindowMs) return { problems: { closes: tooLong } };
	return { opens: new Date(opens), closes: new Date(closes) };
}

/** A paper as its form shows it. */
export function fieldsOfPaper(row: PaperRow, zone: string): PaperFields {
	const { mark, noDanger, cured } = passRuleOf(row);
	const counts = blueprintOf(row).lines.map((line) => {
		const field = line.kind === 'callout' ? calloutField(line.family, line.area) : drillField(line.drill);
		return [field, String(line.count)];
	});
	return {
		...Object.fromEntries(counts),
		title: row.title,
		mode: row.mode,
		minutes: String(row.minutes),
		attempts: String(row.attempts),
		variantCount: String(row.variantCount),
		passMark: String(mark),
		...(noDanger && { noDanger: 'on' }),
		cured: String(cured),
		opens: row.opens ? localTime(row.opens.getTime(), zone) : '',
		closes: row.closes ? localTime(row.closes.getTime(), zone) : ''
	};
}
