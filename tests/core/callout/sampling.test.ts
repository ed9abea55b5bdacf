import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyFault } from '#shared/scenario/apply-fault.ts';
import { complaintHolds } from '#shared/callout/complaints.ts';
import { makeCallout, NoComplaint } from '#shared/callout/make.ts';
import { priorWeight, sampleMachine, UnknownFault } from '#shared/callout/sample-machine.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import { smallPack } from '../scenario/small-family.ts';

const pack = smallPack();
const seeds = fc.nat({ max: mostSeed });
const faults = fc.constantFrom(...pack.faults.map(({ id }) => id));

describe('a machine', () => {
	it('is the same for the same seed, to the last bit', () => {
		fc.assert(fc.property(seeds, (seed) => void expect(sampleMachine(pack, seed)).toEqual(sampleMachine(pack, seed))));
	});

	it('has the same household and sound parts whichever fault is put in', () => {
		fc.assert(
			fc.property(seeds, faults, faults, (seed, one, other) => {
				const a = sampleMachine(pack, seed, { fault: one });
				const b = sampleMachine(pack, seed, { fault: other });
				expect(a.household).toEqual(b.household);
				expect(a.sound).toEqual(b.sound);
			})
		);
	});

	it('at severity 0 is the healthy machine', () => {
		fc.assert(
			fc.property(seeds, faults, (seed, fault) => {
				const healthy = sampleMachine(pack, seed, { fault: 'none' });
				expect(sampleMachine(pack, seed, { fault, severity: 0 }).faulty).toEqual(healthy.faulty);
				expect(healthy.fault).toBeNull();
			})
		);
	});

	it('takes what is fixed by hand, and the gas with its pressure', () => {
		const fixed = sampleMachine(pack, 7, { fault: 'none', overrides: { parameters: { 'water.mainTempC': 3.25 }, gas: 'G25' } });
		expect(fixed.sound['water.mainTempC']).toBe(3.25);
		expect(fixed.household.gas).toBe('G25');
	});

	it('of an unknown fault is refused with what is known', () => {
		expect(() => sampleMachine(pack, 1, { fault: 'gremlin' })).toThrow(UnknownFault);
		expect(() => sampleMachine(pack, 1, { fault: 'gremlin' })).toThrow(
			/none or one of element-weak, valve-passing, fuse-blown; came "gremlin"/
		);
	});

	it('has facts that move its parameters', () => {
		const farms = Array.from({ length: 200 }, (_, seed) => sampleMachine(pack, seed, { fault: 'none' })).filter(
			({ household }) => household.id === 'farm'
		);
		expect(farms.length).toBeGreaterThan(30);
		for (const { sound } of farms) expect(sound['water.mainTempC']).toBeLessThanOrEqual(5);
	});
});

describe('faults are drawn by weight and raised facts', () => {
	it('in the proportions that they should', () => {
		const drawn = Array.from({ length: 3000 }, (_, seed) => sampleMachine(pack, seed)).filter(({ household }) =>
			household.facts.includes('hard-water')
		);
		const weights = pack.faults.map((fault) => priorWeight(fault, ['hard-water']));
		const share = drawn.filter(({ fault }) => fault?.id === 'element-weak').length / drawn.length;
		// About 1000 draws: a standard deviation of 0.014; four of them are allowed.
		expect(drawn.length).toBeGreaterThan(800);
		expect(Math.abs(share - weights[0]! / weights.reduce((a, b) => a + b))).toBeLessThan(0.056);
		expect(weights[0]).toBe(9);
	});
});

describe('what severity does', () => {
	const sound = { a: 10, b: 4, c: 1 };
	const changes = { a: { to: 30 }, b: { times: 0.5 }, c: { becomes: 0 } };

	it('is nothing at 0 and all at 1, with the straight way between', () => {
		expect(applyFault(sound, { changes }, 0)).toBe(sound);
		expect(applyFault(sound, { changes }, 0.5)).toEqual({ a: 20, b: 3, c: 0 });
		expect(applyFault(sound, { changes }, 1)).toEqual({ a: 30, b: 2, c: 0 });
	});

	it('outside 0 to 1 is refused', () => {
		expect(() => applyFault(sound, { changes }, 1.1)).toThrow(RangeError);
		expect(() => applyFault(sound, { changes }, Number.NaN)).toThrow(RangeError);
	});
});

describe('a callout', () => {
	it('comes with a complaint whose every condition holds', () => {
		fc.assert(
			fc.property(seeds, fc.option(faults, { nil: undefined }), (seed, fault) => {
				const callout = makeCallout(pack, seed, fault);
				expect(complaintHolds(callout.complaint, (demand) => pack.model.settle(callout.faulty, demand))).toBe(true);
				expect(callout.complaint.says).toContain(callout.complaintSays);
				if (fault) expect(callout.fault?.id).toBe(fault);
			})
		);
	});

	it('is the same for the same seed', () => {
		fc.assert(fc.property(seeds, (seed) => void expect(makeCallout(pack, seed)).toEqual(makeCallout(pack, seed))));
	});

	it('of a machine that nobody would complain of is refused', () => {
		expect(() => makeCallout(pack, 5, 'none')).toThrow(NoComplaint);
		expect(() => makeCallout(pack, 5, 'element-weak', { severity: 0.001 })).toThrow(/nobody would complain.*element-weak/);
	});
});
