import { beforeAll, describe, expect, test } from 'vitest';
import type { Demand } from '#shared/appliance/model.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import type { Drill } from '#shared/review/drills/drill.ts';
import type { Check } from '#shared/scenario/schema.ts';
import { combi } from '../../../../sampled.ts';
import { drillsOf, readingOf, rightOf, suspectIn, valueOf } from './drilled.ts';
import { freshReadings } from './fresh.ts';

let table: EvidenceTable;
beforeAll(async () => (table = await evidenceFor(combi)));
const ground = () => ({ pack: combi, table });

const sound = (check: Check, demand: Demand) => freshReadings(combi, check, demand, 'none', 250);
const faulty = (check: Check, demand: Demand, fault: number) => freshReadings(combi, check, demand, combi.faults[fault]!.id, 50);
let judged: Drill[] | undefined;
/** Made once for two tests. */
const measured = () => (judged ??= drillsOf('judge-measured-reading', ground(), 90));
const share = (values: readonly number[], is: (value: number) => boolean) => values.filter(is).length / values.length;

// Fresh machines, drawn with seeds of their own: what is called low, high or sound must be so of machines that the table never saw.
// Allowances are those of shares of 250 and of 50.
describe('a measured reading', () => {
	test('is called low or high where next to no sound machine reads so, and sound or undecided where many do', () => {
		const met = new Map<string, number>();
		for (const drill of measured()) {
			const { check, demand, value } = readingOf(combi, drill.question);
			const [right] = rightOf(drill);
			met.set(right!, (met.get(right!) ?? 0) + 1);
			const readings = sound(check, demand);
			const [asLow, asHigh] = [share(readings, (one) => one <= value), share(readings, (one) => one >= value)];
			if (right === 'low') expect(asLow).toBeLessThanOrEqual(0.012);
			else if (right === 'high') expect(asHigh).toBeLessThanOrEqual(0.012);
			else expect(Math.min(asLow, asHigh)).toBeGreaterThan(0.012);
		}
		for (const verdict of ['sound', 'low', 'high', 'cannot-tell']) expect(met.get(verdict) ?? 0).toBeGreaterThan(6);
	});

	test('speaks against the suspect where its machines read otherwise, and cannot tell where they read alike', () => {
		const within: Record<string, number[]> = { sound: [], 'cannot-tell': [] };
		for (const drill of measured()) {
			const { check, demand } = readingOf(combi, drill.question);
			const [right] = rightOf(drill);
			if (right !== 'sound' && right !== 'cannot-tell') continue;
			const sorted = sound(check, demand).sort((a, b) => a - b);
			const [from, to] = [sorted[5]!, sorted[244]!];
			within[right]!.push(share(faulty(check, demand, suspectIn(combi, drill.question)), (one) => one >= from && one <= to));
		}
		expect(Math.max(...within['sound']!)).toBeLessThan(0.45);
		expect(Math.min(...within['cannot-tell']!)).toBeGreaterThan(0.3);
	});
});

test('what was seen, heard or felt is judged as fresh machines have it', () => {
	const met = new Map<string, number>();
	for (const drill of drillsOf('judge-felt-or-heard-reading', ground(), 90)) {
		const { check, demand, value } = readingOf(combi, drill.question);
		const [right] = rightOf(drill);
		met.set(right!, (met.get(right!) ?? 0) + 1);
		const [ofSound, ofFaulty] = [sound(check, demand), faulty(check, demand, suspectIn(combi, drill.question))].map((readings) =>
			share(readings, (one) => one === value)
		) as [number, number];
		if (right === 'sound' || right === 'cannot-tell') expect(ofSound).toBeGreaterThan(0.3);
		else expect(ofSound).toBeLessThan(0.2);
		if (right === 'as-suspected') expect(ofFaulty).toBeGreaterThan(0.2);
		if (right === 'other') expect(ofFaulty).toBeLessThan(0.25);
		if (right === 'sound') expect(ofFaulty / ofSound).toBeLessThan(0.45);
		if (right === 'cannot-tell') expect(ofFaulty / ofSound).toBeGreaterThan(0.25);
	}
	for (const verdict of ['sound', 'as-suspected', 'other', 'cannot-tell']) expect(met.get(verdict) ?? 0).toBeGreaterThan(6);
});

test('nothing is read on a suspicion that somebody with it would not read', () => {
	for (const id of ['judge-measured-reading', 'judge-felt-or-heard-reading'])
		for (const drill of drillsOf(id, ground(), 150)) {
			const { check } = readingOf(combi, drill.question);
			const suspect = combi.faults[suspectIn(combi, drill.question)]!;
			const rivals = combi.faults.filter(({ shown }) => shown.some((one) => suspect.shown.includes(one)));
			expect(suspect.area === check.area || rivals.some(({ shown }) => shown.includes(check.id)), `${suspect.id}, ${check.id}`).toBe(true);
		}
});

test('of one check under two demands, just those readings are not sound that no fresh sound machine gives', () => {
	for (const drill of drillsOf('same-check-two-demands', ground(), 60)) {
		const { given } = drill.question;
		const check = combi.checks.find(({ name }) => name === given.find((line) => line.name === 'Check')!.value)!;
		const [right] = rightOf(drill);
		for (const [at, line] of given.slice(-2).entries()) {
			const demand = combi.family.demands.find(({ name }) => name === line.name)!.id;
			const value = valueOf(check, line.value);
			const readings = sound(check, demand);
			const common = check.words
				? share(readings, (one) => one === value)
				: Math.min(
						share(readings, (one) => one <= value),
						share(readings, (one) => one >= value)
					);
			const isApart = right === 'both' || right === ['first', 'second'][at];
			if (isApart) expect(common).toBeLessThan(check.words ? 0.2 : 0.012);
			else expect(common).toBeGreaterThan(check.words ? 0.3 : 0.012);
		}
	}
});
