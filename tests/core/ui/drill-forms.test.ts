import { describe, expect, it } from 'vitest';
import { placesSaid, readAnswer } from '../../../src/routes/drill/[id]/read-answer.ts';
import { answerWords } from '$lib/practice/answer-words.ts';

function form(...fields: [string, string][]): FormData {
	const data = new FormData();
	for (const [name, value] of fields) data.append(name, value);
	return data;
}
const choices = [
	{ id: 'a', says: 'Spark' },
	{ id: 'b', says: 'Fan' },
	{ id: 'c', says: 'Flame' }
];

describe('an answer read from its form', () => {
	it('is a figure as it was written, cut to a length', () => {
		expect(readAnswer(form(['written', ' 31,5 K ']))).toEqual({ written: '31,5 K' });
		expect(readAnswer(form(['written', '']))).toEqual({ written: '' });
		expect(readAnswer(form(['written', '9'.repeat(5000)]))).toEqual({ written: '9'.repeat(100) });
	});

	it('is what was chosen, none too', () => {
		expect(readAnswer(form(['chosen', 'b'], ['chosen', 'a']))).toEqual({ chosen: ['b', 'a'] });
		expect(readAnswer(form(['zone', 'Europe/London']))).toEqual({ chosen: [] });
	});

	it('is an order by the numbers given', () => {
		expect(readAnswer(form(['place.a', '2'], ['place.b', '1'], ['place.c', '3']))).toEqual({ chosen: ['b', 'a', 'c'] });
	});

	it.each([[['1', '1', '3']], [['', '2', '3']], [['0', '1', '2']], [['1', '2', '4']], [['first', '2', '3']]])(
		'is refused where the numbers make no order: %j',
		(numbers) => {
			const given = form(...numbers.map((number, index): [string, string] => [`place.${choices[index]!.id}`, number]));
			expect(readAnswer(given)).toEqual({ refused: 'Give each line a number of its own, from 1 to 3.' });
			expect(placesSaid(given)).toEqual({ a: numbers[0], b: numbers[1], c: numbers[2] });
		}
	);
});

describe('an answer read back', () => {
	it('is in the words of its choices', () => {
		expect(answerWords({ chosen: ['c', 'a'] }, { kind: 'several', choices })).toEqual(['Flame', 'Spark']);
		expect(answerWords({ chosen: ['b', 'a', 'c'] }, { kind: 'order', choices })).toEqual(['1. Fan', '2. Spark', '3. Flame']);
		expect(answerWords({ written: '31.5 K' }, { kind: 'figure', units: ['K'] })).toEqual(['31.5 K']);
	});
});
