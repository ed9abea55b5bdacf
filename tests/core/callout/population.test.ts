/** Each family's population, as households, faults and complaints make it. */
import { describe, expect, it } from 'vitest';
import { fittingComplaints, runsOf } from '#shared/callout/complaints.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { packs, problems } from './combi-pack.ts';

/** A family in full: at least so much of each. */
const least = { faults: 12, checks: 25, parts: 10, outside: 2 };

it('scenarios/ holds together', () => {
	expect(problems).toEqual([]);
});

describe.each([...packs])('%s', (_, pack) => {
	describe('the data', () => {
		it('offers what a family must offer', () => {
			expect(pack.faults.length).toBeGreaterThanOrEqual(least.faults);
			expect(pack.checks.length).toBeGreaterThanOrEqual(least.checks);
			expect(pack.parts.length).toBeGreaterThanOrEqual(least.parts);
			expect(new Set(pack.checks.map(({ way }) => way))).toEqual(new Set(['look', 'listen', 'feel', 'measure', 'ask']));
			expect(pack.faults.filter(({ area }) => area === 'user').length).toBeGreaterThanOrEqual(least.outside);
			for (const { misleads, why, how } of pack.checks) expect([misleads, why, how].every((words) => words.length > 1)).toBe(true);
		});

		it('gives each fact that raises a fault to some household, and a way to learn most of them', () => {
			const raising = new Set(pack.faults.flatMap(({ raised }) => Object.keys(raised)));
			const met = new Set(pack.households.flatMap(({ facts, maybe }) => [...facts, ...Object.keys(maybe)]));
			expect([...raising].filter((fact) => !met.has(fact))).toEqual([]);
		});

		it('has a source beside each limit', () => {
			for (const { source } of Object.values(pack.rules.limits))
				expect(source).toMatch(/from memory|secondary|scope|common practice|title/i);
		});
	});

	describe('a healthy machine', () => {
		it('is seldom complained of', () => {
			const machines = Array.from({ length: 150 }, (_, seed) => sampleMachine(pack, seed, { fault: 'none' }));
			const complained = machines.filter(
				({ faulty }) =>
					fittingComplaints(
						pack,
						runsOf((demand) => pack.model.settle(faulty, demand))
					).length > 0
			);
			// A cold winter's main leaves a few baths cool; people do call about those.
			expect(complained.length / machines.length).toBeLessThan(0.1);
		});
	});

	describe('each fault', () => {
		it.each(pack.faults.map(({ id }) => id))('%s brings callouts', (id) => {
			for (let seed = 0; seed < 3; seed++) expect(makeCallout(pack, seed, id).fault?.id).toBe(id);
		});
	});
});

it('each complaint of the common file is brought by some fault of some family', () => {
	const left = new Set([...packs.values()].flatMap(({ complaints }) => complaints.map(({ id }) => id)));
	for (const pack of packs.values()) {
		for (let seed = 0; seed < 300 && left.size > 0; seed++) {
			const { faulty } = sampleMachine(pack, seed);
			const run = runsOf((demand) => pack.model.settle(faulty, demand));
			for (const { id } of fittingComplaints(pack, run)) left.delete(id);
		}
	}
	expect([...left]).toEqual([]);
});
