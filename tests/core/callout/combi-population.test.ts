/** The demo family's population, as households, faults and complaints make it. */
import { describe, expect, it } from 'vitest';
import { fittingComplaints, runsOf } from '#shared/callout/complaints.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { combiPack as pack, problems } from './combi-pack.ts';

describe('scenarios/', () => {
	it('holds together', () => {
		expect(problems).toEqual([]);
	});

	it('offers what the family must offer', () => {
		expect(pack.faults.length).toBeGreaterThanOrEqual(23);
		expect(pack.checks.length).toBeGreaterThanOrEqual(40);
		expect(pack.parts.length).toBeGreaterThanOrEqual(16);
		expect(new Set(pack.checks.map(({ way }) => way))).toEqual(new Set(['look', 'listen', 'feel', 'measure', 'ask']));
		expect(pack.faults.filter(({ area }) => area === 'user').length).toBeGreaterThanOrEqual(2);
	});

	it('gives each fact that raises a fault to some household, and a way to learn most of them', () => {
		const raising = new Set(pack.faults.flatMap(({ raised }) => Object.keys(raised)));
		const met = new Set(pack.households.flatMap(({ facts, maybe }) => [...facts, ...Object.keys(maybe)]));
		expect([...raising].filter((fact) => !met.has(fact))).toEqual([]);
	});

	it('has a source beside each limit', () => {
		for (const { source } of Object.values(pack.rules.limits)) expect(source).toMatch(/from memory|secondary|scope|common practice|title/i);
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
		for (let seed = 0; seed < 6; seed++) expect(makeCallout(pack, seed, id).fault?.id).toBe(id);
	});
});

describe('each complaint', () => {
	it('is brought by some fault', () => {
		const brought = new Set<string>();
		for (let seed = 0; seed < 300; seed++) {
			const { faulty } = sampleMachine(pack, seed);
			for (const { id } of fittingComplaints(
				pack,
				runsOf((demand) => pack.model.settle(faulty, demand))
			))
				brought.add(id);
		}
		expect(pack.complaints.map(({ id }) => id).filter((id) => !brought.has(id))).toEqual([]);
	});
});
