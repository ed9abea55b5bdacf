import { expect, it } from 'vitest';
import { generators } from '#shared/review/drills/index.ts';
import { writtenSentence, writtenUnit } from '$lib/ui/written.ts';
import { combi } from '../../sampled.ts';

/** Units as the data names them, none of which belongs on a page. */
const raw = /degC|\b(?:uA|kohm|ohm|m3|ft3|1\/min)(?!\w)/;

const made = generators
	.filter(({ needs }) => needs !== 'evidence')
	.map((generator) => {
		const ground = { pack: generator.needs === 'nothing' ? null : combi, table: null };
		return [generator.id, Array.from({ length: 12 }, (_, seed) => generator.make(ground, seed))] as const;
	});

it.each(made)('%s is asked, offered and worked in units as the trade writes them', (_, drills) => {
	for (const { question, judge } of drills) {
		const { asks, given, asking } = question;
		const asked = [asks, ...given.flatMap(({ name, value }) => [name, value])];
		const offered = 'choices' in asking ? asking.choices.map(({ says }) => says) : asking.units.map(writtenUnit);
		const answer =
			'choices' in asking ? { chosen: asking.choices.map(({ id }) => id).slice(0, asking.kind === 'order' ? 99 : 1) } : { written: '1' };
		const judged = judge(answer, 10);
		const said = 'refused' in judged ? [judged.refused] : [...judged.answer, ...judged.worked, judged.misconception ?? ''];
		for (const line of [...asked, ...offered, ...said]) expect(writtenSentence(line)).not.toMatch(raw);
	}
});

it('has such units to write', () => {
	const lines = made.flatMap(([, drills]) => drills.flatMap(({ question }) => question.given.map(({ value }) => value)));
	for (const unit of ['degC', 'ohm', 'm3'])
		expect(
			lines.some((line) => line.includes(unit)),
			unit
		).toBe(true);
});
