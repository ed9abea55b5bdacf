/** A sat paper as a statement: by the rules of the Experience API 1.0.3, which refuse what the specification refuses. */
import { describe, expect, it } from 'vitest';
import { durationOf, statementOf, voidingOf } from '#shared/assessment/statement.ts';
import { statementRules, type Statement } from '#shared/assessment/statement-rules.ts';

const id = '1f0d6c36-6e0f-4f9e-8f4e-0a9a6c1b2d3e';
const sat = {
	id,
	origin: 'https://practice.example',
	member: 'f3b1c0de',
	paper: { id: 'p1', title: 'Hot water', mode: 'formal', variant: 2 },
	registration: '2f0d6c36-6e0f-5f9e-8f4e-0a9a6c1b2d3e',
	tookMs: 3_723_000,
	endedAt: '2026-01-05T10:02:03.000Z',
	outcome: { got: 143.3, outOf: 210, percent: 68.2, passed: true, because: [] },
	packHashes: ['ab12'],
	rules: ['United Kingdom']
};

/** With one thing in it changed, by its path. */
function changed(path: string, value: unknown): unknown {
	const copy = structuredClone(statementOf(sat)) as unknown as Record<string, unknown>;
	const keys = path.split('.');
	const last = keys.pop()!;
	const holder = keys.reduce((inner, key) => inner[key] as Record<string, unknown>, copy);
	if (value === undefined) delete holder[last];
	else holder[last] = value;
	return copy;
}

describe('a statement of a sat paper', () => {
	it('is by the rules, with the share, the marks and the time it took', () => {
		const statement = statementOf(sat);
		expect(statementRules.parse(statement)).toEqual(statement);
		expect(statement.result).toMatchObject({ score: { scaled: 0.6824, raw: 143.3, min: 0, max: 210 }, duration: 'PT1H2M3S' });
		expect(statement.timestamp).toBe('2026-01-05T10:02:03.000Z');
		expect(statement.context!.extensions).toMatchObject({
			'https://practice.example/terms/pack-hashes': ['ab12'],
			'https://practice.example/terms/rules': ['United Kingdom']
		});
	});

	it('is taken back by one that is by the rules as well', () => {
		const voiding: Statement = voidingOf(sat.registration, id, sat.origin, sat.endedAt);
		expect(statementRules.parse(voiding)).toEqual(voiding);
	});

	it('is not made of a paper out of no marks', () => {
		expect(() => statementOf({ ...sat, outcome: { ...sat.outcome, got: 0, outOf: 0 } })).toThrow(RangeError);
	});
});

describe('a duration', () => {
	for (const [ms, said] of [
		[0, 'PT0S'],
		[-5, 'PT0S'],
		[59_400, 'PT59S'],
		[59_600, 'PT1M'],
		[3_600_000, 'PT1H'],
		[86_400_000 + 61_000, 'PT24H1M1S']
	] as const)
		it(`of ${ms} ms is ${said}`, () => expect(durationOf(ms)).toBe(said));
});

describe('the rules refuse', () => {
	for (const [says, path, value] of [
		['an id that is no UUID', 'id', '17'],
		['no actor', 'actor', undefined],
		['an actor with an e-mail beside the account', 'actor.mbox', 'mailto:a@b.example'],
		['an account without a home page', 'actor.account.homePage', undefined],
		['an account with an empty name', 'actor.account.name', ''],
		['no verb', 'verb', undefined],
		['a verb that is no IRI', 'verb.id', 'passed'],
		['a verb that takes back, of an activity', 'verb.id', 'http://adlnet.gov/expapi/verbs/voided'],
		['no object', 'object', undefined],
		['an activity that is no IRI', 'object.id', 'papers/p1'],
		['a name without its language', 'object.definition.name', { 'no tag!': 'Hot water' }],
		['a share above 1', 'result.score.scaled', 1.01],
		['marks below the least', 'result.score.raw', -1],
		['marks above the most', 'result.score.raw', 211],
		['a most that is the least', 'result.score.max', 0],
		['success in words', 'result.success', 'yes'],
		['a duration in minutes', 'result.duration', '62'],
		['a duration of nothing', 'result.duration', 'PT'],
		['a registration that is no UUID', 'context.registration', 'sitting-1'],
		['an extension whose key is no IRI', 'context.extensions', { rules: 'UK' }],
		['a value that is null', 'context', null],
		['a stamp without a zone', 'timestamp', '2026-01-05T10:02:03'],
		['a stamp that is not UTC', 'timestamp', '2026-01-05T10:02:03+01:00'],
		['a property that the specification does not name', 'mark', 68]
	] as const)
		it(says, () => expect(statementRules.safeParse(changed(path, value)).success).toBe(false));
});
