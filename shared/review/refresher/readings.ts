/** Checks that both families have and that read otherwise on a sound appliance under the same demand. */
import type { Demand } from '#shared/appliance/model.ts';
import { anyOf } from '#shared/quantity/any-of.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { demandShort } from '../drills/evidence/words.ts';
import { misleads, warningsOf, type KnownReading, type ReadingDifference } from './difference.ts';
import { shownWith, soundSpan, type Span } from './sound.ts';

/** Most faults that a sentence names. */
const mostNamed = 2;

/** Of the machines with a fault, the share that must read as a sound one of the other family does for the reading to go with it. */
const mostly = 0.5;

/** What a check reads here and in one known family. */
interface Pair {
	readonly known: Pack;
	readonly check: Check;
	readonly here: Span;
	readonly there: Span;
	/** 1 where nothing is shared; for numbers the gap between the spans as a share of all that they cover; 0 where they meet. */
	readonly apart: number;
}

/**
 * A check under a demand differs where it reads otherwise than in every known family that has it: one that reads alike is enough to know it.
 * @param known not empty
 */
export function readingDifferences(met: Pack, known: readonly Pack[]): ReadingDifference[] {
	const found = met.checks.flatMap((check) => check.under.flatMap((demand) => differenceOf(met, check, demand, known) ?? []));
	return found.reduce<ReadingDifference[]>((all, one) => {
		const alike = all.findIndex((other) => other.check === one.check && saidAlike(other, one));
		return alike < 0 ? [...all, one] : all.with(alike, joined(met, all[alike], one));
	}, []);
}

function differenceOf(met: Pack, check: Check, demand: Demand, known: readonly Pack[]): ReadingDifference | null {
	const pairs = known.flatMap((pack) => pairOf(met, check, demand, pack) ?? []);
	if (pairs.length === 0 || pairs.some(({ apart }) => apart === 0)) return null;
	const there = pairs.map((pair): KnownReading => {
		return { family: pair.known.family.short, reads: pair.there.says, goesWith: faultsRead(pair, check, demand) };
	});
	const { least, apart, condemns } = misleads.reading;
	const weight =
		least + apart * Math.min(...pairs.map((pair) => pair.apart)) + (there.some(({ goesWith }) => goesWith.length > 0) ? condemns : 0);
	const difference: Omit<ReadingDifference, 'says'> = {
		kind: 'reading',
		side: 'both',
		id: `${check.id}/${demand}`,
		name: check.name,
		check: check.id,
		demands: [demand],
		here: pairs[0].here.says,
		there,
		misleads: weight,
		...warningsOf(check)
	};
	return { ...difference, says: sentenceOf(met, difference) };
}

function pairOf(met: Pack, check: Check, demand: Demand, known: Pack): Pair | null {
	const other = known.checks.find(({ id, under }) => id === check.id && under.includes(demand));
	if (!other || other.unit !== check.unit || (other.words === undefined) !== (check.words === undefined)) return null;
	const [here, there] = [soundSpan(met, check, demand), soundSpan(known, other, demand)];
	if (!here || !there) return null;
	return { known, check: other, here, there, apart: check.words ? wordsApart(check, here, other, there) : numbersApart(here, there) };
}

const wordsIn = (check: Check, { from, to }: Span): readonly string[] => check.words!.slice(from, to + 1).map(({ word }) => word);

function wordsApart(check: Check, here: Span, other: Check, there: Span): number {
	const words = wordsIn(other, there);
	return wordsIn(check, here).some((word) => words.includes(word)) ? 0 : 1;
}

function numbersApart(here: Span, there: Span): number {
	const gap = Math.max(here.from - there.to, there.from - here.to);
	if (!(gap > 0)) return 0;
	const all = Math.max(here.to, there.to) - Math.min(here.from, there.from);
	return Number.isFinite(all) ? gap / all : 1;
}

/** Faults of the known family that the check shows, and that make it read what is sound here; the commonest first. */
function faultsRead({ known, check, here, there }: Pair, own: Check, demand: Demand): string[] {
	const words = own.words && wordsIn(own, here);
	const isLike = (value: number) =>
		words ? words.includes(check.words![value].word) : here.to < there.from ? value <= here.to : value >= here.from;
	return known.faults
		.filter(({ id, shown }) => {
			if (!shown.includes(check.id)) return false;
			const values = shownWith(known, id, check, demand);
			return values.filter(isLike).length >= mostly * values.length;
		})
		.toSorted((a, b) => b.weight - a.weight)
		.slice(0, mostNamed)
		.map(({ says }) => says.replace(/\.$/, ''));
}

const saidAlike = (a: ReadingDifference, b: ReadingDifference): boolean =>
	a.here === b.here && JSON.stringify(a.there) === JSON.stringify(b.there);

function joined(met: Pack, one: ReadingDifference, more: ReadingDifference): ReadingDifference {
	const both = { ...one, demands: [...one.demands, ...more.demands], misleads: Math.max(one.misleads, more.misleads) };
	return { ...both, says: sentenceOf(met, both) };
}

function sentenceOf(met: Pack, { name, check, demands, here, there, isLive }: Omit<ReadingDifference, 'says'>): string {
	const isInWords = met.checks.some(({ id, words }) => id === check && words !== undefined);
	const read = (reading: string) => (isInWords ? `"${reading}"` : reading);
	const others = there.map(({ family, reads, goesWith }) => {
		const faults = goesWith.length > 0 ? `, and ${read(here)} there goes with a fault: ${anyOf(goesWith)}` : '';
		return ` On ${family} it is ${read(reads)}${faults}.`;
	});
	return `${name}, ${anyOf(demands.map((demand) => demandShort(met, demand)))}: ${read(here)} is sound here.${others.join('')}${isLive ? ' A live test.' : ''}`;
}
