import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { evidenceGenerators } from '#shared/review/drills/evidence/index.ts';
import { noneOfThem } from '#shared/review/drills/evidence/answers.ts';
import { NothingToAsk } from '#shared/review/drills/draw.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { combi } from '../../../../sampled.ts';
import type { Drill } from '#shared/review/drills/drill.ts';
import { answersTo, choiceIds, drillsOf, generator, judgedOf, rightOf } from './drilled.ts';

const all = evidenceGenerators.map(({ id }) => id);
const tables = new Map<Pack, EvidenceTable>();
beforeAll(async () => {
	for (const pack of packs().values()) tables.set(pack, await evidenceFor(pack));
});
const ground = (pack = combi) => ({ pack, table: tables.get(pack)! });
/** What weighs a whole visit takes a tenth of a second a drill; what weighs nothing is next to free. */
const seedsOf = (id: string): number => (id.startsWith('next-check') ? 16 : generator(id).needs === 'evidence' ? 40 : 250);
const drawnAgain = 4;

const made = new Map<string, Drill[]>();
/** Made once for several tests. */
function drills(id: string, pack = combi): Drill[] {
	const key = `${pack.family.id}/${id}`;
	let known = made.get(key);
	if (!known) made.set(key, (known = drillsOf(id, ground(pack), seedsOf(id))));
	return known;
}
/** Enough of them for what is tried with every answer. */
const some = (id: string): Drill[] => drills(id).slice(0, 40);

// Where a family has no more to ask, what it has is said: the number of different questions, whatever order choices come in.
const fewer: Readonly<Record<string, number>> = {
	'combi-plate-primary/sequence-order': 20,
	'combi-plate-primary/terminals-for-check': 20,
	'combi-tap-coil/sequence-order': 6,
	'combi-tap-coil/sequence-where-it-stopped': 30
};

/** Left out are families of which it says itself that there is nothing to ask. */
const familiesOffering = (id: string) =>
	[...packs().values()].flatMap((pack) =>
		generator(id).offers?.({ pack, table: null }) === false ? [] : [[pack.family.id, pack] as const]
	);

describe.each(all)('%s', (id) => {
	test('the same seed gives the same drill, word for word', () => {
		const again = drillsOf(id, ground(), drawnAgain);
		drills(id)
			.slice(0, drawnAgain)
			.forEach((drill, seed) => {
				expect(again[seed]!.question).toEqual(drill.question);
				const answer = answersTo(drill.question)[0]!;
				expect(again[seed]!.judge({ chosen: answer }, 9)).toEqual(drill.judge({ chosen: answer }, 9));
			});
	});

	test('one answer is right; it is fluent when quick, sound when not, laboured when very slow', () => {
		for (const drill of some(id)) {
			const right = rightOf(drill);
			expect(judgedOf(drill, right, 1)).toMatchObject({ right: true, recall: 'fluent', misconception: null });
			expect(judgedOf(drill, right, 70).recall).toBe('sound');
			expect(judgedOf(drill, right, 3600).recall).toBe('laboured');
		}
	});

	test('a wrong answer is lost, or laboured where one slip makes it, and says what leads to it', () => {
		for (const drill of drills(id).slice(0, 12)) {
			const right = rightOf(drill);
			for (const chosen of answersTo(drill.question).filter((answer) => answer.join() !== right.join())) {
				const judged = judgedOf(drill, chosen);
				expect(judged.right).toBe(false);
				expect(judged.misconception).toMatch(/\S.{10,}/);
				const { kind } = drill.question.asking;
				if (kind === 'one') expect(judged.recall).toBe('lost');
				if (judged.recall === 'laboured') {
					expect(slips(kind, right, chosen)).toBe(1);
					if (kind === 'several') expect(chosen.some((id) => right.includes(id))).toBe(true);
				} else expect(judged.recall).toBe('lost');
			}
		}
	});

	test('the question does not tell', () => {
		const places = new Map<number, number>();
		for (const { question, ...drill } of some(id)) {
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

	test('no line of it is a broken sentence', () => {
		for (const drill of drills(id).slice(0, 30)) {
			const { asks, given, asking } = drill.question;
			const says = 'choices' in asking ? asking.choices.map((choice) => choice.says) : [];
			const judged = answersTo(drill.question)
				.slice(0, 12)
				.map((chosen) => judgedOf(drill, chosen));
			const said = judged.flatMap(({ answer, worked, misconception }) => [...answer, ...worked, misconception ?? '']);
			for (const line of [asks, ...given.map(({ value }) => value), ...says, ...said])
				expect(line).not.toMatch(/\.\.|(?<!\b[ad]\.c)\.[;:,]|\?[;:,]|\?\.|\bread (?:winds|warm|silent|hot|cold)\b| [.;,]|undefined|NaN/);
		}
	});

	test('no answer is taken that is none', () => {
		const [drill] = drills(id);
		const [first, second] = choiceIds(drill!.question);
		expect(drill!.judge({ written: 'low' }, 5)).toHaveProperty('refused');
		expect(drill!.judge({ chosen: ['no-such-thing'] }, 5)).toHaveProperty('refused');
		expect(drill!.judge({ chosen: [first!, first!] }, 5)).toHaveProperty('refused');
		if (drill!.question.asking.kind === 'one') {
			expect(drill!.judge({ chosen: [] }, 5)).toHaveProperty('refused');
			expect(drill!.judge({ chosen: [first!, second!] }, 5)).toHaveProperty('refused');
		}
		if (drill!.question.asking.kind === 'several') {
			expect(drill!.judge({ chosen: [] }, 5)).toHaveProperty('refused');
			expect(drill!.judge({ chosen: [first!, noneOfThem.id] }, 5)).toHaveProperty('refused');
		}
		if (drill!.question.asking.kind === 'order') expect(drill!.judge({ chosen: [first!] }, 5)).toHaveProperty('refused');
	});

	// A question that came back every second time would be learnt by heart.
	test.each(familiesOffering(id))('asks different things of %s', (family, pack) => {
		const asked = drills(id, pack).map(({ question }) => {
			expect(question).toMatchObject({ drill: generator(id).drill, family: pack.family.id });
			return JSON.stringify([question.asks, question.given, choiceIds(question).sort()]);
		});
		expect(new Set(asked).size).toBeGreaterThanOrEqual(
			generator(id).needs === 'evidence' ? 0.85 * asked.length : (fewer[`${family}/${id}`] ?? 50)
		);
	});
});

/** Ticks that differ; for an order, exchanges of neighbours, counted by inversions. */
function slips(kind: string, right: readonly string[], chosen: readonly string[]): number {
	if (kind === 'several') {
		const [wanted, ticked] = [right, chosen].map((ids) => ids.filter((id) => id !== noneOfThem.id)) as [string[], string[]];
		return wanted.filter((id) => !ticked.includes(id)).length + ticked.filter((id) => !wanted.includes(id)).length;
	}
	const at = chosen.map((id) => right.indexOf(id));
	return at.reduce((sum, place, index) => sum + at.slice(index + 1).filter((later) => later < place).length, 0);
}

test('whoever judges a reading is told of which house it is', () => {
	for (const id of ['judge-measured-reading', 'judge-felt-or-heard-reading', 'same-check-two-demands'])
		for (const { question } of drills(id)) expect(question.given[0]).toMatchObject({ name: 'House', value: expect.stringMatching(/\S/) });
});

test('the right answer is told a line for each thing in it', () => {
	for (const id of all) {
		const [drill] = drills(id);
		const right = rightOf(drill!);
		const { asking } = drill!.question;
		if (asking.kind === 'figure') throw new Error('no drill here asks for a figure');
		const says = right.map((one) => asking.choices.find((choice) => choice.id === one)!.says);
		const told = asking.kind === 'order' ? says.map((line, index) => `${index + 1}. ${line}`) : says;
		expect([...judgedOf(drill!, right).answer].sort()).toEqual(told.length === 0 ? ['None of them'] : told.sort());
	}
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
