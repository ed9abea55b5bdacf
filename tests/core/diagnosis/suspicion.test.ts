import { describe, expect, it } from 'vitest';
import { bitsBetween } from '#shared/marking/reasons.ts';
import type { Evidence } from '#shared/diagnosis/likelihood.ts';
import { suspicion } from '#shared/diagnosis/suspicion.ts';
import { smallPack, smallTable } from './small-pack.ts';

const temperature = (value: number, after: string[] = []): Evidence => ({ check: 'temperature', demand: 'tap', value, after });
const ohms = (value: number): Evidence => ({ check: 'ohms', demand: 'none', value, after: [] });
const feel = (value: number): Evidence => ({ check: 'feel', demand: 'tap', value, after: [] });
const held = (complaint: string, readings: Evidence[], proofs = [] as Parameters<typeof suspicion>[4]) =>
	suspicion(smallPack, smallTable(), complaint, readings, proofs);

describe('suspicion', () => {
	it('sums to 1 over faults, and counts a remedy for each fault that it cures', () => {
		const { faults, remedies } = held('tepid', [temperature(41)]);
		expect(faults.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
		expect(remedies[1]).toBeCloseTo(faults[1] + faults[2], 12);
		expect(remedies[2]).toBeCloseTo(faults[2], 12);
	});

	it('takes the complaint as evidence: one of two that fit counts half', () => {
		const { faults } = held('cold', []);
		// Sixty rows that fit this complaint alone, against thirty of each other fault that fit both.
		expect(faults[0] / faults[1]).toBeCloseTo(60 / (30 * 0.5 + 30 * 0.002), 6);
	});

	it('follows a reading, and the order of readings does not matter', () => {
		const one = held('cold', [temperature(20), feel(0)]);
		const other = held('cold', [feel(0), temperature(20)]);
		expect(one.faults[0]).toBeGreaterThan(0.99);
		expect([...other.faults]).toEqual([...one.faults].map((p) => expect.closeTo(p, 12)));
	});

	it('is never certain, whatever is read', () => {
		const { faults } = held(
			'cold',
			Array.from({ length: 30 }, () => temperature(20))
		);
		expect(Math.max(...faults)).toBeLessThan(1);
		expect(Math.min(...faults)).toBeGreaterThan(0);
	});

	it('survives a blundered reading when others speak for the truth', () => {
		const { faults } = held('cold', [temperature(20), temperature(20.4), feel(0), temperature(75)]);
		expect(faults[0]).toBeGreaterThan(0.9);
	});

	it('takes over range as the open circuit that it is, and a number as none', () => {
		expect(held('tepid', [ohms(Infinity)]).faults[1]).toBeGreaterThan(0.95);
		expect(held('tepid', [ohms(400)]).faults[1]).toBeLessThan(0.05);
	});

	it('takes over range on a range set too low for what it is: more than that range holds', () => {
		const set = (range: string, value: number): Evidence => ({ ...ohms(value), setting: { stands: 'ohms', range } });
		const before = held('tepid', []).faults;
		// The open circuit and 400 ohm alike are past 100 ohm: nothing is learnt.
		expect([...held('tepid', [set('low', Infinity)]).faults]).toEqual([...before].map((p) => expect.closeTo(p, 9)));
		// 400 ohm would have been shown within a range of a million: only the open circuit is past it.
		expect(held('tepid', [set('high', Infinity)]).faults[1]).toBeGreaterThan(0.95);
		expect(held('tepid', [set('high', 0)]).faults[1]).toBeLessThan(0.05);
		// In steps of a thousand, 0 speaks no louder for the one of 400 ohm than for the other.
		const [first, , third] = held('tepid', [set('high', 0)]).faults;
		expect(first! / third!).toBeCloseTo(before[0]! / before[2]!, 6);
	});

	it('says nothing of a reading on terminals or a range that show nothing of the appliance', () => {
		const set: Evidence = { ...ohms(0), setting: { stands: null, range: 'low' } };
		expect([...held('tepid', [temperature(41), set]).faults]).toEqual([...held('tepid', [temperature(41)]).faults]);
	});

	it('takes a reading between other terminals as the check whose quantity it is', () => {
		const swapped: Evidence = { ...temperature(41), check: 'elsewhere', setting: { stands: 'temperature' } };
		expect([...held('tepid', [swapped]).faults]).toEqual([...held('tepid', [temperature(41)]).faults]);
	});

	it('judges readings after a remedy against the sound machine where it cures', () => {
		const before = held('tepid', [temperature(41)]);
		const cured = held('tepid', [temperature(41), temperature(50, ['fit-two'])]);
		const notCured = held('tepid', [temperature(41), temperature(41, ['clean'])]);
		expect(cured.remedies[1]).toBeGreaterThan(before.remedies[1]);
		expect(notCured.faults[2]).toBeLessThan(before.faults[2] / 5);
	});

	it('takes what a proof showed', () => {
		const before = held('tepid', [temperature(41)]);
		const still = held('tepid', [temperature(41)], [{ after: ['clean'], stillFaulty: true }]);
		const gone = held('tepid', [temperature(41)], [{ after: ['clean'], stillFaulty: false }]);
		expect(still.faults[2]).toBeLessThan(before.faults[2] / 20);
		expect(gone.faults[2]).toBeGreaterThan(0.9);
	});

	it('widens when too few rows are left to stand for the truth', () => {
		const sharp = Array.from({ length: 12 }, (_, i) => temperature(40.9 + (i % 3) * 0.1));
		const { faults, effective } = held('tepid', sharp);
		expect(effective).toBeLessThan(60);
		expect(faults[1]).toBeGreaterThan(0.02);
		expect(faults[2]).toBeGreaterThan(0.02);
	});

	it('says nothing of a reading that the table has no column for', () => {
		const known = held('tepid', [temperature(41)]);
		const other = held('tepid', [temperature(41), { check: 'temperature', demand: 'heating', value: 3, after: [] }]);
		expect([...other.faults]).toEqual([...known.faults]);
	});
});

describe('bits between two beliefs', () => {
	it('is 1 for halving two to one, 0 for no change, and never below 0', () => {
		expect(bitsBetween([0.5, 0.5], [1, 0])).toBeCloseTo(1, 12);
		expect(bitsBetween([0.3, 0.7], [0.3, 0.7])).toBe(0);
		expect(bitsBetween([0.9, 0.1], [0.5, 0.5])).toBeGreaterThan(0);
	});
});
