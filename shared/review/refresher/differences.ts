/**
 * What differs between the family met tomorrow and those already known, all of it from their data and their models: no list of differences is
 * kept anywhere, so a family that is added is compared from its first day.
 */
import { anyOf } from '#shared/quantity/any-of.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { demandShort, sentence } from '../drills/evidence/words.ts';
import { misleads, warningsOf, type Difference, type DifferenceKind } from './difference.ts';
import { readingDifferences } from './readings.ts';
import { sequencesBeside, type DemandSequence } from './sequences.ts';
import { soundSpan } from './sound.ts';
import { ended } from './words.ts';

export interface Differences {
	/** What would mislead most comes first. */
	readonly list: readonly Difference[];
	readonly sequences: readonly DemandSequence[];
}

/** Something that a family has or has not. */
interface Had extends Pick<Difference, 'id' | 'name' | 'says' | 'caution' | 'isLive'> {
	/** Ids under which another family has the same. */
	readonly as?: readonly string[];
}

/**
 * @param met   the family met tomorrow
 * @param known those already known
 * @throws RangeError where none is known: there is nothing to compare with
 */
export function differencesOf(met: Pack, known: readonly Pack[]): Differences {
	if (known.length === 0) throw new RangeError('at least one family that is known is needed to compare with');
	const list = [...readingDifferences(met, known), ...kinds.flatMap((kind) => hadByOne(kind, met, known))];
	return { list: list.toSorted((a, b) => b.misleads - a.misleads || (a.id < b.id ? -1 : 1)), sequences: sequencesBeside(met, known) };
}

type ListedKind = Exclude<DifferenceKind, 'reading'>;

/** What there is of each kind in a family. */
const listed: Readonly<Record<ListedKind, (pack: Pack) => readonly Had[]>> = {
	step: (pack) =>
		pack.family.sequence.map(({ id, demand, does }) => {
			return { id: `${demand}/${id}`, name: does, says: `${sentence(demandShort(pack, demand))}: ${does}` };
		}),
	'test-point': (pack) =>
		pack.checks.filter((check) => isTestPoint(pack, check)).map((check) => checkHad(check, testPointSays(pack, check))),
	place: ({ drawing }) => drawing.places.map((place) => ({ ...had(place, `${place.name}: ${place.says}`), as: place.as ?? [] })),
	indication: ({ family }) =>
		Object.entries(family.indications).map(([id, says]) => {
			return { id, name: says, says: `Shown when it shuts down: ${ended(says)}`, as: family.indicationsAs?.[id] ?? [] };
		}),
	check: (pack) =>
		pack.checks
			.filter((check) => !isTestPoint(pack, check) && check.way !== 'ask')
			.map((check) => checkHad(check, `${check.name}: ${check.how}`)),
	tool: ({ checks, instruments }) =>
		instruments
			.filter(({ id }) => checks.some(({ instrument }) => instrument === id))
			.map((tool) => had(tool, `Instrument: ${ended(tool.name)}`)),
	part: ({ parts }) => parts.map((part) => had(part, `Part: ${ended(part.name)}`))
};
const kinds = Object.keys(listed) as ListedKind[];

const had = ({ id, name }: { readonly id: string; readonly name: string }, says: string): Had => ({ id, name, says });
const checkHad = (check: Check, says: string): Had => ({ ...had(check, says), ...warningsOf(check) });

/** Whether two families have the same in these: under one id, or where one stands for the other. */
const isSame = (a: Had, b: Had): boolean => a.id === b.id || (a.as ?? []).includes(b.id) || (b.as ?? []).includes(a.id);
const isAmong = (some: readonly Had[], one: Had): boolean => some.some((other) => isSame(one, other));

/** A difference has no need of what decided that it is one. */
const withoutAs = ({ as: _, ...rest }: Had): Omit<Had, 'as'> => rest;

const notHere: Readonly<Record<ListedKind, string>> = {
	step: 'Not here',
	'test-point': 'Not here',
	place: 'Not on this drawing',
	indication: 'Not here',
	check: 'Not here',
	tool: 'Not here',
	part: 'Not here'
};

function hadByOne(kind: ListedKind, met: Pack, known: readonly Pack[]): Difference[] {
	const here = listed[kind](met);
	const there = known.map(listed[kind]);
	const all = there.flat();
	const lacking = new Map(all.filter((one) => !isAmong(here, one)).map((one) => [one.id, one]));
	return [
		...here
			.filter((one) => !isAmong(all, one))
			.map((one): Difference => ({ ...withoutAs(one), kind, side: 'here', misleads: misleads[kind].here })),
		...[...lacking.values()].map((one): Difference => {
			const share = there.filter((some) => isAmong(some, one)).length / known.length;
			return { ...withoutAs(one), kind, side: 'known', says: `${notHere[kind]}: ${one.says}`, misleads: misleads[kind].known * share };
		})
	];
}

/** Where the leads of a meter go. */
function isTestPoint({ instruments }: Pack, { terminals, instrument }: Check): boolean {
	return terminals !== undefined || instruments.some(({ id, face }) => id === instrument && face === 'meter');
}

/** Where the leads go and what a sound one reads: `Volts at the fan, live to neutral: 233 to 242 V (tap open or heating on).` */
function testPointSays(pack: Pack, check: Check): string {
	const { terminals, under } = check;
	const pointName = (id: string) => terminals!.points.find((point) => point.id === id)!.name;
	const between = terminals ? `, ${terminals.between.map(pointName).join(' to ').toLowerCase()}` : '';
	const byReading = new Map<string, string[]>();
	for (const demand of under) {
		const span = soundSpan(pack, check, demand);
		if (span) byReading.set(span.says, [...(byReading.get(span.says) ?? []), demandShort(pack, demand)]);
	}
	const sound = [...byReading].map(([says, demands]) => `${says} (${anyOf(demands)})`).join('; ');
	return `${check.name}${between}: sound ones read ${sound}.`;
}
