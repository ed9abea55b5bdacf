import { beforeAll, describe, expect, it } from 'vitest';
import type { Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { readPacks } from '$lib/server/packs/read-scenarios.ts';
import { json, typed, written } from './terminal.ts';

const family = 'combi-plate-primary';
const inStock = readPacks();
const pack = inStock.get(family)!;

// The first time on a machine the evidence table has to be made; afterwards it is read from disk.
beforeAll(async () => {
	for (const one of inStock.values()) await evidenceFor(one);
}, 600_000);

const actions: readonly Action[] = [
	{ kind: 'demand', demand: 'tap' },
	{ kind: 'check', check: 'measure-tap-temperature' },
	{ kind: 'step', step: 'open-casing' },
	{ kind: 'check', check: 'look-turbine-indicator' }
];
const attempt = { family, seed: 31, fault: 'turbine-dead', actions };

interface Believed {
	readonly faults: Readonly<Record<string, number>>;
}

const sum = (chances: Readonly<Record<string, number>>) => Object.values(chances).reduce((a, b) => a + b, 0);

describe('replay', () => {
	it('gives state, suspicion after each action, and marks', async () => {
		const result = await json<{
			state: { events: { readings: { text: string }[] }[]; minutes: number; site: string[] };
			suspicion: Believed[];
			marks: { outOf: number; lines: unknown[] };
		}>(`replay --file ${written(attempt)}`);
		expect(result.state.events).toHaveLength(actions.length);
		expect(result.state.site).toContain('casing-off');
		expect(result.suspicion).toHaveLength(actions.length + 1);
		for (const { faults } of result.suspicion) expect(sum(faults)).toBeCloseTo(1, 9);
		expect(Object.keys(result.suspicion.at(-1)!.faults)[0]).toBe('turbine-dead');
		expect(result.marks.outOf).toBe(100);
		expect(result.marks.lines.length).toBeGreaterThan(0);
	});

	it('is the same each time', async () => {
		const file = written(attempt);
		expect(await json(`replay --file ${file}`)).toEqual(await json(`replay --file ${file}`));
	});

	it('reads as a table without --json', async () => {
		const { out } = await typed(`replay --file ${written(attempt)}`);
		expect(out).toMatch(/check look-turbine-indicator/);
		expect(out).toMatch(/ of 100/);
	});
});

describe('suspicion and best', () => {
	it('before anything is read follow the complaint alone', async () => {
		const { faults } = await json<Believed>(`suspicion --file ${written({ ...attempt, actions: [] })}`);
		expect(sum(faults)).toBeCloseTo(1, 9);
		const callout = makeCallout(pack, attempt.seed, attempt.fault);
		expect(callout.complaint.id).toMatch(/\w/);
		expect(Math.max(...Object.values(faults))).toBeLessThan(0.9);
	});

	it('name the action of least expected cost first', async () => {
		const { best, actions: open } = await json<{
			best: { regret: number; choice: { kind: string } };
			actions: { regret: number; expectedCost: number }[];
		}>(`best --file ${written(attempt)}`);
		expect(best.regret).toBe(0);
		expect(open.map(({ expectedCost }) => expectedCost)).toEqual([...open.map(({ expectedCost }) => expectedCost)].sort((a, b) => a - b));
	});

	it('leave nothing to do once the visit is over', async () => {
		const { best, actions: open } = await json<{ best: null; actions: [] }>(
			`best --file ${written({ ...attempt, actions: [{ kind: 'leave', told: [] }] })}`
		);
		expect([best, open]).toEqual([null, []]);
	});
});

describe('lint', () => {
	it('finds every fault told from every other by the checks offered', async () => {
		const { code, out } = await typed('lint --json');
		const { ok, families } = JSON.parse(out) as { ok: boolean; families: { family: string; faults: number; inseparable: unknown[] }[] };
		expect(families.map(({ family, faults, inseparable }) => ({ family, faults, inseparable }))).toEqual(
			[...inStock].map(([family, { faults }]) => ({ family, faults: faults.length, inseparable: [] }))
		);
		expect([ok, code]).toEqual([true, 0]);
	});
});

describe('a file that cannot be used', () => {
	it.each([
		['is no JSON', '{', /a readable JSON file/],
		['has no seed', { family, actions }, /seed: expected \{ family, seed, fault\?, actions \}.*missing/],
		['has a family that is not there', { ...attempt, family: 'boiler' }, /family: expected one of combi-plate-primary, .*; came "boiler"/],
		['has a fault that is not there', { ...attempt, fault: 'gremlin' }, /fault: expected one of .*; came "gremlin"/],
		['has an action that is none', { ...attempt, actions: [{ kind: 'kick' }] }, /actions\.0/],
		[
			'has an action out of order',
			{ ...attempt, actions: [{ kind: 'step', step: 'prove-dead' }] },
			/actions\[0\]: expected an action that can be done there \(First: Isolate the electricity/
		]
	])('%s', async (_what, content, says) => {
		const { code, err } = await typed(`replay --file ${written(content)}`);
		expect(code).toBe(2);
		expect(err).toMatch(says);
		expect(err.trimEnd()).not.toContain('\n');
	});
});
