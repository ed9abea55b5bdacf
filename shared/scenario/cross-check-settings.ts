/** Ranges and test points: that every choice offered of an instrument comes to something. */
import { mustBeUnique, type Crossing } from './crossing.ts';
import { toolOf } from './rotary.ts';
import type { Check } from './schema.ts';

export function checkRanges(crossing: Crossing): void {
	const { sources, report } = crossing;
	const { instruments } = sources;
	const seen = new Set<string>();
	instruments.value.forEach((instrument, index) => {
		const { ranges = [], measures, face } = instrument;
		if (ranges.length > 0 && !measures) report(instruments, [index, 'ranges'], 'ranges need a "measures", which says what they measure');
		const first = instruments.value.find((other) => toolOf(other) === toolOf(instrument));
		if (face !== first?.face) report(instruments, [index, 'face'], `the tool "${toolOf(instrument)}" has one face in all of its settings`);
		ranges.forEach((range, at) => {
			const path = [index, 'ranges', at];
			const key = `${toolOf(instrument)} ${range.id}`;
			if (seen.has(key)) report(instruments, [...path, 'id'], `the tool "${toolOf(instrument)}" already has a range "${range.id}"`);
			seen.add(key);
			if (range.resolution >= range.over) report(instruments, [...path, 'over'], 'a range must end above its own resolution');
		});
	});
}

export function checkTerminals(crossing: Crossing, check: Check, at: (...path: (string | number)[]) => (string | number)[]): void {
	const { sources, quantities, report, mustBe } = crossing;
	const { checks, instruments } = sources;
	const { terminals } = check;
	if (!terminals) return;
	const measures = instruments.value.find(({ id }) => id === check.instrument)?.measures;
	if (!measures) report(checks, at('terminals'), 'only a check with an instrument that says what it measures has terminals');
	mustBeUnique(crossing, checks, terminals.points, at('terminals', 'points'));
	const points = terminals.points.map(({ id }) => id);
	const unsaid = new Set(points.flatMap((one, i) => points.slice(i + 1).map((other) => pairKey([one, other]))));
	const say = (pair: readonly [string, string], path: readonly (string | number)[]) => {
		if (!unsaid.delete(pairKey(pair)))
			report(checks, at('terminals', ...path), 'two different points of the check, and each two only once');
	};
	say(terminals.between, ['between']);
	terminals.others.forEach(({ between, reads, less }, i) => {
		say(between, ['others', i, 'between']);
		const words = ['nothing', 'open'];
		mustBe(checks, at('terminals', 'others', i, 'reads'), 'a quantity, "nothing" or "open"', new Set([...quantities, ...words]), reads);
		if (less) mustBe(checks, at('terminals', 'others', i, 'less'), 'a quantity of the model', quantities, less);
	});
	for (const pair of unsaid) report(checks, at('terminals', 'others'), `nothing says what is read between ${pair}`);
}

const pairKey = (pair: readonly [string, string]) => [...pair].sort().join(' and ');
