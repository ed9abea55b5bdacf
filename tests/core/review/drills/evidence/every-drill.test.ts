import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { evidenceGenerators } from '#shared/review/drills/evidence/index.ts';
import { NothingToAsk } from '#shared/review/drills/evidence/draw.ts';
import { evidenceFor } from '$lib/server/evidence.ts';
import { packs } from '$lib/server/packs.ts';
import { combi } from '../../../../sampled.ts';
import type { Drill } from '#shared/review/drills/drill.ts';
import { answersTo, choiceIds, drillsOf, generator, judgedOf, rightOf } from './drilled.ts';

const all = evidenceGenerators.map(({ id }) => id);
const tables = new Map<Pack, EvidenceTable>();
beforeAll(async () => {
	for (const pack of packs().values()) tables.set(pack, await evidenceFor(pack));
});
const ground = (pack = combi) => ({ pack, table: tables.get(pack)! });
const seeds = 60;

const made = new Map<string, Drill[]>();
/** Made once for several tests. */
function drills(id: string): Drill[] {
	let known = made.get(id);
	if (!known) made.set(id, (known = drillsOf(id, ground(), seeds)));
	return known;
}

describe.each(all)('%s', (id) => {
	test('the same seed gives the same drill, word for word', () => {
		const again = drillsOf(id, ground(), 12);
		drills(id)
			.slice(0, 12)
			.forEach((drill, seed) => {
				expect(again[seed]!.question).toEqual(drill.question);
				const answer = answersTo(drill.question)[0]!;
				expect(again[seed]!.judge({ chosen: answer }, 9)).toEqual(drill.judge({ chosen: answer }, 9));
			});
	});

	test('one answer is right; it is fluent when quick, sound when not, laboured when very slow', () => {
		for (const drill of drills(id)) {
			const right = rightOf(drill);
			expect(judgedOf(drill, right, 1)).toMatchObject({ right: true, recall: 'fluent', misconception: null });
			expect(judgedOf(drill, right, 70).recall).toBe('sound');
			expect(judgedOf(drill, right, 3600).recall).toBe('laboured');
		}
	});

	test('a wrong answer is lost, or laboured where one slip makes it, and says what leads to it', () => {
		for (const drill of drills(id).slice(0, 20)) {
			const right = rightOf(drill);
			for (const chosen of answersTo(drill.question).filter((answer) => answer.join() !== right.join())) {
				const judged = judgedOf(drill, chosen);
				expect(judged.right).toBe(false);
				expect(judged.misconception).toMatch(/\S.{10,}/);
				const { kind } = drill.question.asking;
				if (kind === 'one') expect(judged.recall).toBe('lost');
				if (judged.recall === 'laboured') expect(slips(kind, right, chosen)).toBe(1);
				else expect(judged.recall).toBe('lost');
			}
		}
	});

	test('the question does not tell', () => {
		const places = new Map<number, number>();
		for (const { question, ...drill } of drills(id)) {
			expect(Object.keys(question).sort()).toEqual(['asking', 'asks', 'drill', 'family', 'given']);
			if (question.asking.kind === 'figure') throw new Error('no drill here asks for a figure');
			for (const choice of question.asking.choices) expect(Object.keys(choice).sort()).toEqual(['id', 'says']);
			const shown = JSON.stringify(question);
			const right = rightOf({ question, ...drill });
			const { worked } = judgedOf({ question, ...drill }, right);
			for (const line of worked)
				if (line.length > 60 && question.asking.kind === 'one') expect(shown).not.toContain(JSON.stringify(line).slice(1, -1));
			if (question.asking.kind !== 'order')
				for (const one of right) places.set(choiceIds(question).indexOf(one), (places.get(choiceIds(question).indexOf(one)) ?? 0) + 1);
		}
		const total = [...places.values()].reduce((sum, count) => sum + count, 0);
		for (const count of places.values()) expect(count).toBeLessThan(0.75 * total);
	});

	test('no answer is taken that is none', () => {
		const [drill] = drillsOf(id, ground(), 1);
		const [first, second] = choiceIds(drill!.question);
		expect(drill!.judge({ written: 'low' }, 5)).toHaveProperty('refused');
		expect(drill!.judge({ chosen: ['no-such-thing'] }, 5)).toHaveProperty('refused');
		expect(drill!.judge({ chosen: [first!, first!] }, 5)).toHaveProperty('refused');
		if (drill!.question.asking.kind === 'one') {
			expect(drill!.judge({ chosen: [] }, 5)).toHaveProperty('refused');
			expect(drill!.judge({ chosen: [first!, second!] }, 5)).toHaveProperty('refused');
		}
		if (drill!.question.asking.kind === 'order') expect(drill!.judge({ chosen: [first!] }, 5)).toHaveProperty('refused');
	});

	test('every family in stock that offers it can be drilled', () => {
		for (const pack of packs().values()) {
			const here = ground(pack);
			const [one] = evidenceGenerators.filter((other) => other.id === id);
			if (one!.offers && !one!.offers(here)) continue;
			for (const { question } of drillsOf(id, here, 12)) expect(question).toMatchObject({ drill: one!.drill, family: pack.family.id });
		}
	});
});

/** Ticks that differ; for an order, exchanges of neighbours, counted by inversions. */
function slips(kind: string, right: readonly string[], chosen: readonly string[]): number {
	if (kind === 'several') return right.filter((id) => !chosen.includes(id)).length + chosen.filter((id) => !right.includes(id)).length;
	const at = chosen.map((id) => right.indexOf(id));
	return at.reduce((sum, place, index) => sum + at.slice(index + 1).filter((later) => later < place).length, 0);
}

// Where a family has no more to ask, what it has is said: the number of different questions in as many seeds, whatever order choices come in.
const fewer: Readonly<Record<string, number>> = { 'sequence-order': 20, 'terminals-for-check': 20 };

test.each(all.filter((id) => !id.startsWith('next-check')))('%s asks at least 50 different things, or as many as the family has', (id) => {
	const asked = new Set(
		drillsOf(id, ground(), generator(id).needs === 'evidence' ? 90 : 400).map(({ question }) =>
			JSON.stringify([question.asks, question.given, choiceIds(question).sort()])
		)
	);
	expect(asked.size).toBeGreaterThanOrEqual(fewer[id] ?? 50);
});

test.each(['next-check-at-start', 'next-check-after-readings'])('%s asks at least 50 different things', (id) => {
	expect(
		new Set(drills(id).map(({ question }) => JSON.stringify([question.given, choiceIds(question).sort()]))).size
	).toBeGreaterThanOrEqual(50);
});

test('a family without terminals, ranges or a sequence says so, and is not asked about them', () => {
	const bare: Pack = {
		...combi,
		family: { ...combi.family, sequence: [] },
		instruments: combi.instruments.map(({ ranges: _, ...instrument }) => instrument),
		checks: combi.checks.map(({ terminals: _, ...check }) => check)
	};
	const cannot = evidenceGenerators.filter(({ offers }) => offers && !offers({ pack: bare, table: null }));
	expect(cannot.map(({ id }) => id).sort()).toEqual([
		'range-for-check',
		'sequence-order',
		'sequence-what-comes-next',
		'sequence-where-it-stopped',
		'terminals-for-check'
	]);
	for (const one of cannot) expect(() => one.make({ pack: bare, table: null }, 1)).toThrow(NothingToAsk);
});

test('a drill of a family is refused without one, and one that weighs readings without evidence', () => {
	for (const one of evidenceGenerators) {
		expect(() => one.make({ pack: null, table: null }, 1)).toThrow(RangeError);
		if (one.needs === 'evidence') expect(() => one.make({ pack: combi, table: null }, 1)).toThrow(RangeError);
	}
});

test('no generator knows a family, a fault, a check or a part by its id', () => {
	const folder = 'shared/review/drills/evidence';
	const texts = readdirSync(folder, { recursive: true, encoding: 'utf8' })
		.filter((name) => name.endsWith('.ts'))
		.map((name) => readFileSync(join(folder, name), 'utf8'));
	for (const pack of packs().values()) {
		const ids = [pack.family, ...pack.faults, ...pack.checks, ...pack.remedies, ...pack.instruments, ...pack.complaints]
			.map(({ id }) => id)
			.filter((id) => id.includes('-'));
		for (const text of texts) for (const id of ids) expect(text).not.toContain(`'${id}'`);
	}
});
