/** What is practised after what, and how long it is thought to take. It changes nothing in a callout, so no pack's hash covers it. */
import { z } from 'zod';
import { areas, type Area } from './areas.ts';
import type { Problem } from './pack.ts';
import { readSheet, type Sheet, type Text } from './sheet.ts';

/** Where the curriculum lies in `scenarios/`. */
export const curriculumFile = 'drills/curriculum.yaml';

/** The kinds of drill. */
export const drillKinds = [
	'reading',
	'next-check',
	'ruled-out',
	'sequence',
	'terminals',
	'water-sums',
	'heat-sums',
	'gas-sums',
	'combustion-sums',
	'electrical-sums'
] as const;
export type DrillKind = (typeof drillKinds)[number];

/** Whether a kind of drill asks for a figure: to whoever works it out, sums are alike whatever they are of. */
export const isOfSums = (drill: string): boolean => drill.endsWith('-sums');

const area = z.enum(Object.keys(areas) as [Area, ...Area[]]);
const drill = z.enum(drillKinds);
const minutes = z.number().min(0.5).max(60);
const share = z.number().min(0).max(1);

const place = z.strictObject({ after: z.array(area), minutes });

export const curriculum = z.strictObject({
	areas: z.record(area, place),
	drills: z.array(z.strictObject({ id: drill, name: z.string().min(3), after: z.array(drill), minutes })).min(1),
	/** Areas that stand otherwise in one family, by its id. */
	families: z.record(z.string(), z.partialRecord(area, place.partial())),
	round: z.strictObject({
		/** Callouts of a new skill that follow each other in its first round: the most where there is time. */
		together: z
			.strictObject({ least: z.int().min(1), most: z.int().min(1) })
			.refine((t) => t.least <= t.most, 'least must not be above most'),
		/** At most one skill is begun for so many minutes of a round. */
		minutesPerNew: z.number().positive(),
		/** Another family is begun once so many areas of each begun one are, or all that it has. */
		familyAfter: z.int().min(1),
		/** Nothing is begun while what is known takes more than this share of a round's minutes each day. */
		busy: share,
		/** An item is taken into a round while at least this share of it still fits. */
		half: share,
		/** So many of the learner's own times weigh as much as the curriculum's minutes. */
		ownFrom: z.number().positive(),
		/** How many times the minutes of another practice one that was lost takes. */
		lostTakes: z.number().min(1)
	})
});
export type Curriculum = z.infer<typeof curriculum>;
export type RoundCuts = Curriculum['round'];

export type CurriculumRead = { readonly curriculum: Curriculum | null; readonly problems: readonly Problem[] };

/** @returns the curriculum, or every problem with its file, line and key: what does not fit its shape, a kind named twice, a circle */
export function readCurriculum(text: Text): CurriculumRead {
	const read = readSheet(curriculum, text);
	if ('problems' in read) return { curriculum: null, problems: read.problems };
	const problems = [...namedTwice(read.sheet), ...circles(read.sheet)];
	return problems.length > 0 ? { curriculum: null, problems } : { curriculum: read.sheet.value, problems };
}

function namedTwice({ file, value, lineOf }: Sheet<Curriculum>): Problem[] {
	return value.drills.flatMap(({ id }, index) =>
		value.drills.findIndex((other) => other.id === id) < index
			? [{ file, line: lineOf(['drills', index, 'id']), key: `drills.${index}.id`, says: `"${id}" is there already` }]
			: []
	);
}

/** Whatever can never be begun, because it comes after itself. */
function circles({ file, value, lineOf }: Sheet<Curriculum>): Problem[] {
	const drills = new Map<string, readonly string[]>(value.drills.map(({ id, after }) => [id, after]));
	const common = new Map<string, readonly string[]>(Object.entries(value.areas).map(([id, { after }]) => [id, after]));
	const groups = [
		{ order: drills, at: (id: string): (string | number)[] => ['drills', [...drills.keys()].indexOf(id), 'after'] },
		{ order: common, at: (id: string) => ['areas', id, 'after'] },
		...Object.entries(value.families).map(([family, own]) => ({
			order: new Map([...common, ...Object.entries(own).flatMap(([id, { after }]) => (after ? [[id, after] as const] : []))]),
			at: (id: string) => ['families', family, id, 'after']
		}))
	];
	return groups.flatMap(({ order, at }) =>
		[...order.keys()]
			.filter((id) => before(order, id).has(id))
			.map((id) => ({ file, line: lineOf(at(id)), key: at(id).join('.'), says: `"${id}" comes after itself` }))
	);
}

/** Everything that comes before one, near or far. */
function before(order: ReadonlyMap<string, readonly string[]>, id: string, found = new Set<string>()): Set<string> {
	for (const earlier of order.get(id) ?? []) {
		if (found.has(earlier)) continue;
		found.add(earlier);
		before(order, earlier, found);
	}
	return found;
}
