/**
 * What differs between the family met tomorrow and those already known, all of it from their data and their models: no list of differences is
 * kept anywhere, so a family that is added is compared from its first day.
 */
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { demandShort, sentence } from '../drills/evidence/words.ts';
import { misleads, type Difference, type DifferenceKind } from './difference.ts';
import { readingDifferences } from './readings.ts';
import { sequencesBeside, type DemandSequence } from './sequences.ts';
import { soundSpan } from './sound.ts';
import { anyOf, ended } from './words.ts';

export interface Differences {
	/** What would mislead most comes first. */
	readonly list: readonly Difference[];
	readonly sequences: readonly DemandSequence[];
}

/** Something that a family has or has not. */
interface Had {
	readonly id: string;
	readonly name: string;
	readonly says: string;
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
	'test-point': (pack) => pack.checks.filter((check) => isTestPoint(pack, check)).map((check) => had(check, testPointSays(pack, check))),
	place: ({ drawing }) => drawing.places.map((place) => had(place, `${place.name}: ${place.says}`)),
	indication: ({ family }) =>
		Object.entries(family.indications).map(([id, says]) => ({ id, name: says, says: `Shown when it shuts down: ${ended(says)}` })),
	check: (pack) =>
		pack.checks
			.filter((check) => !isTestPoint(pack, check) && check.way !== 'ask')
			.map((check) => had(check, `${check.name}: ${check.how}`)),
	tool: ({ checks, instruments }) =>
		instruments
			.filter(({ id }) => checks.some(({ instrument }) => instrument === id))
			.map((tool) => had(tool, `Instrument: ${ended(tool.name)}`)),
	part: ({ parts }) => parts.map((part) => had(part, `Part: ${ended(part.name)}`))
};
const kinds = Object.keys(listed) as ListedKind[];

const had = ({ id, name }: { readonly id: string; readonly name: string }, says: string): Had => ({ id, name, says });

function hadByOne(kind: ListedKind, met: Pack, known: readonly Pack[]): Difference[] {
	const here = listed[kind](met);
	const there = known.map(listed[kind]);
	const all = [...new Map(there.flat().map((one) => [one.id, one])).values()];
	const has = (some: readonly Had[], { id }: Had) => some.some((one) => one.id === id);
	return [
		...here.filter((one) => !has(all, one)).map((one): Difference => ({ ...one, kind, side: 'here', misleads: misleads[kind].here })),
		...all
			.filter((one) => !has(here, one))
			.map((one): Difference => {
				const share = there.filter((some) => has(some, one)).length / known.length;
				return { ...one, kind, side: 'known', says: `Not here: ${one.says}`, misleads: misleads[kind].known * share };
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
