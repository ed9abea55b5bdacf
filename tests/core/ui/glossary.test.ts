import { describe, expect, it } from 'vitest';
import { glossaryFile, readGlossary, type Term } from '#shared/scenario/glossary.ts';
import { makePacks } from '#shared/scenario/make-pack.ts';
import { models } from '#shared/appliance/families/index.ts';
import { markTerms } from '$lib/ui/glossary/mark-terms.ts';
import { scenariosFolder, textsIn } from '$lib/server/packs/read-scenarios.ts';
import { combi, stock } from '../../sampled.ts';

const texts = textsIn(scenariosFolder());
const { terms, problems } = readGlossary(texts.find(({ name }) => name === glossaryFile)!);
const term = (word: string, also: string[] = []): Term => ({
	id: word.replaceAll(' ', '-').toLowerCase(),
	term: word,
	also,
	says: `${word} explained`
});
const marked = (sentence: string, known: readonly Term[]) =>
	markTerms([sentence], known)[0].flatMap(({ says, term: one }) => (one ? [`${says}=${one.id}`] : []));

describe('the glossary in stock', () => {
	it('holds together, and has a meaning for about as many terms as the sheets need', () => {
		expect(problems).toEqual([]);
		expect(terms.length).toBeGreaterThanOrEqual(40);
		expect(terms.map(({ term: word }) => word.toLowerCase())).toEqual(terms.map(({ term: word }) => word.toLowerCase()).toSorted());
	});

	it('has no term that no check, place or reason uses', () => {
		const said = stock.flatMap(({ pack }) => [
			...pack.checks.flatMap(({ name, how, misleads = '', why }) => [
				name,
				how,
				misleads,
				...(typeof why === 'string' ? [why] : why.map(({ says }) => says))
			]),
			...pack.drawing.places.flatMap(({ name, says }) => [name, says])
		]);
		const used = new Set(said.flatMap((sentence) => markTerms([sentence], terms)[0].map(({ term: one }) => one?.id)));
		expect(terms.filter(({ id }) => !used.has(id)).map(({ id }) => id)).toEqual([]);
	});

	it('is no part of a pack: without it the hash is the same', () => {
		const without = makePacks(
			texts.filter(({ name }) => name !== glossaryFile),
			models
		).packs.get(combi.family.id)!;
		expect(without.hash).toBe(combi.hash);
	});
});

describe('a glossary that does not hold together', () => {
	it('is told by file, line and key: a word that leads to two terms', () => {
		const text =
			'- { id: a, term: pump, says: It drives the water round the house. }\n- { id: b, term: other, also: [Pump], says: It is something else altogether. }\n';
		expect(readGlossary({ name: glossaryFile, text }).problems).toEqual([
			{ file: glossaryFile, line: 2, key: '1.term', says: '"pump" already leads to "a"' }
		]);
	});
});

describe('terms in a sentence', () => {
	it('are found by the longest word, in either case, in the plural, and not inside other words', () => {
		const known = [term('diverter'), term('diverter motor'), term('fan', ['blower'])];
		expect(marked('Diverter motors stand; the diverter and its fan, a blower.', known)).toEqual([
			'Diverter motors=diverter-motor',
			'diverter=diverter',
			'fan=fan'
		]);
		expect(marked('Fanciful infant, fan-like.', known)).toEqual([]);
	});

	it('are signs only in capitals', () => {
		expect(marked('CO is not co.', [term('CO')])).toEqual(['CO=co']);
		expect(marked('co-operate with co', [term('CO')])).toEqual([]);
	});

	it('are marked once over all sentences, and nothing of a sentence is lost', () => {
		const sentences = ['The pump runs.', 'Pump and fan.', ''];
		const each = markTerms(sentences, [term('pump'), term('fan')]);
		expect(each.map((one) => one.map(({ says }) => says).join(''))).toEqual(sentences);
		expect(
			each
				.flat()
				.filter(({ term: one }) => one)
				.map(({ says }) => says)
		).toEqual(['pump', 'fan']);
	});
});
