/** Checks and instruments: where they are taken, what they read and how it is told. */
import { checkRanges, checkTerminals } from './cross-check-settings.ts';
import { idsOf, mustBeUnique, reachableStates, type Crossing } from './crossing.ts';
import type { Check } from './schema.ts';

export function checkObservations(crossing: Crossing): void {
	const { sources, places, quantities, mustBe, report } = crossing;
	const { checks, instruments, homes, family } = sources;
	const instrumentIds = idsOf(instruments.value);
	const facts = new Set(homes.value.facts.map(({ id }) => `fact.${id}`));
	const demands: ReadonlySet<string> = idsOf(family.value.demands);
	const signals = new Set(crossing.model.signals.map(({ key }) => key));
	const reachable = reachableStates(crossing);
	mustBeUnique(crossing, checks, checks.value);
	mustBeUnique(crossing, instruments, instruments.value);
	checkRanges(crossing);

	checks.value.forEach((check, index) => {
		const at = (...path: (string | number)[]) => [index, ...path];
		mustBe(checks, at('place'), 'a place of the drawing', places, check.place);
		if (check.reads.startsWith('fact.')) mustBe(checks, at('reads'), '"fact." and a household fact', facts, check.reads);
		else mustBe(checks, at('reads'), 'a quantity of the model, or "fact." and a household fact', quantities, check.reads);
		check.under.forEach((demand, i) => mustBe(checks, at('under', i), 'a demand of the family', demands, demand));
		check.over?.forEach(({ signal }, i) => mustBe(checks, at('over', i, 'signal'), 'a signal of the model', signals, signal));
		check.needs.forEach((need, i) => mustBe(checks, at('needs', i), 'a state that a step of the rules brings about', reachable, need));
		if (check.instrument) mustBe(checks, at('instrument'), 'an instrument', instrumentIds, check.instrument);
		if (check.carries) mustBe(checks, at('carries'), 'a quantity of the model', quantities, check.carries);
		checkTerminals(crossing, check, at);
		for (const told of untold(check)) report(checks, at(told.key), told.says);
		if (check.live && check.needs.includes('electricity-off')) report(checks, at('live'), 'a live check cannot need electricity-off');
		if (check.live && !check.caution) report(checks, at('live'), 'a live check must carry a caution');
		for (const says of whyless(check)) report(checks, at('why'), says);
		for (const name of reasonsOf(check).flatMap(namedIn)) {
			if (!quantities.has(name) && !facts.has(name)) report(checks, at('why'), `"{${name}}" is no quantity of the model`);
		}
	});
}

interface Untold {
	readonly key: string;
	readonly says: string;
}

/** A reading is told either as a number by an instrument or in words by bands, never both. */
function untold(check: Check): Untold[] {
	const problems: Untold[] = [];
	if (!check.words && !check.instrument)
		problems.push({ key: 'instrument', says: 'a check needs an instrument, or words for what the senses tell' });
	if (check.words && check.instrument) problems.push({ key: 'words', says: 'a check has either an instrument or words, not both' });
	if (!check.words && check.misjudged > 0) problems.push({ key: 'misjudged', says: 'only words can be misjudged' });
	const words = check.words ?? [];
	words.forEach((band, i) => {
		const last = i === words.length - 1;
		const before = words[i - 1]?.below;
		if (last && band.below !== undefined)
			problems.push({ key: 'words', says: 'the last band of words must be open: leave out its "below"' });
		if (!last && band.below === undefined)
			problems.push({ key: 'words', says: `the band "${band.word}" needs a "below", since another follows` });
		if (before !== undefined && band.below !== undefined && band.below <= before)
			problems.push({ key: 'words', says: 'bands of words must rise' });
	});
	return problems;
}

const reasonsOf = ({ why }: Check): string[] => (typeof why === 'string' ? [why] : why.map(({ says }) => says));

/** What a list of reasons leaves without one, or with two. */
function whyless({ why, words }: Check): string[] {
	if (typeof why === 'string') return [];
	if (!words) {
		const rises = why.every(({ when, below }, i) => {
			const before = why[i - 1]?.below ?? -Infinity;
			return when === undefined && (i === why.length - 1 ? below === undefined : below !== undefined && below > before);
		});
		return rises ? [] : ['reasons for numbers need a "below" that rises, the last none, and no "when"'];
	}
	const given = why.flatMap(({ when }) => when ?? []);
	const known = words.map(({ word }) => word);
	return [
		...known.filter((word) => given.filter((other) => other === word).length !== 1).map((word) => `"${word}" needs just one reason`),
		...given.filter((word) => !known.includes(word)).map((word) => `"${word}" is no word of the check`),
		...(why.some(({ when, below }) => when === undefined || below !== undefined) ? ['reasons for words need a "when", and no "below"'] : [])
	];
}

/** Names in braces: `{tapTempC}` or `{tapTempC:1}`. */
function namedIn(why: string): string[] {
	return [...why.matchAll(/\{([^}:]+)(?::\d)?\}/g)].map((match) => match[1]!);
}
