/** What the packs hold: families, and the faults, checks and parts of one. */
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check, Fault } from '#shared/scenario/schema.ts';
import * as option from '../options.ts';
import { table } from '../table.ts';
import type { Verb } from '../verb.ts';

type FamilyLine = Pack['family'] & { readonly hash: string };

export const families: Verb = {
	name: 'families',
	says: 'Every appliance family with its data.',
	options: {},
	run: (_given, packs): FamilyLine[] => [...packs.values()].map((pack) => ({ ...pack.family, hash: pack.hash })),
	show: (lines: FamilyLine[]) =>
		table(
			['id', 'name', 'pack'],
			lines.map(({ id, name, hash }) => [id, name, hash.slice(0, 12)])
		)
};

export const faults: Verb = {
	name: 'faults',
	says: 'The faults of a family.',
	options: { family: option.family },
	run: (given): readonly Fault[] => given.must(option.family).faults,
	show: (lines: Fault[]) =>
		table(
			['id', 'area', 'says', 'weight', 'cured by'],
			lines.map(({ id, area, says, weight, cured }) => [id, area, says, weight, cured.join(', ')])
		)
};

export const checks: Verb = {
	name: 'checks',
	says: 'The checks that a family offers.',
	options: { family: option.family },
	run: (given): readonly Check[] => given.must(option.family).checks,
	show: (lines: Check[]) =>
		table(
			['id', 'place', 'under', 'reads', 'unit', 'minutes'],
			lines.map(({ id, place, under, reads, unit, minutes }) => [id, place, under.join(' '), reads, unit, minutes])
		)
};

interface PartLine {
	readonly id: string;
	readonly name: string;
	readonly price: { readonly from: number; readonly to: number };
	readonly minutes: number;
	/** The id of fitting it, as actions name it. */
	readonly remedy: string;
}

export const parts: Verb = {
	name: 'parts',
	says: 'The parts that can be fitted to a family, with price band and fitting time.',
	options: { family: option.family },
	run: (given): PartLine[] => given.must(option.family).parts.map((part) => ({ ...part, remedy: `fit-${part.id}` })),
	show: (lines: PartLine[]) =>
		table(
			['id', 'name', 'from', 'to', 'minutes'],
			lines.map(({ id, name, price, minutes }) => [id, name, price.from, price.to, minutes])
		)
};
