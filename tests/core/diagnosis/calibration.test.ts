/** Whether belief may be believed: of the faults held near 80 % about 80 % must be the true one, over many callouts with random checks. */
import { describe, expect, it } from 'vitest';
import { makeCallout } from '#shared/callout/make.ts';
import { takeCheck } from '#shared/callout/take-check.ts';
import { columnsOf } from '#shared/diagnosis/columns.ts';
import { suspicion } from '#shared/diagnosis/suspicion.ts';
import { chance } from '#shared/quantity/random.ts';
import type { Check } from '#shared/scenario/schema.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { stock } from '../../sampled.ts';

const tables = await Promise.all(stock.map(async ({ id, pack }) => ({ id, pack, table: await evidenceFor(pack) })));

const calloutsTried = 1000;
const firstSeed = 2_000_000;

/** Checks that lay hands or a meter on a part itself. */
const isDirect = (check: Check) => check.needs.some((state) => state === 'casing-off' || state === 'electricity-off');

interface Held {
	readonly p: number;
	readonly isTrue: boolean;
}

function heldOver(pack: Pack, table: EvidenceTable, allowed: (check: Check) => boolean, first: number): { held: Held[]; logLoss: number } {
	const columns = columnsOf(pack).filter(({ check }) => allowed(check));
	const held: Held[] = [];
	let logLoss = 0;
	for (let seed = first; seed < first + calloutsTried; seed++) {
		const callout = makeCallout(pack, seed);
		const stream = chance(seed, 'calibration');
		const readings = Array.from({ length: stream.pick([3, 6, 10, 15]) }, () => {
			const { check, demand } = stream.pick(columns);
			return { check: check.id, demand, value: takeCheck(callout, check, { demand, cured: false, occasion: 0 }).value, after: [] };
		});
		const { faults } = suspicion(pack, table, callout.complaint.id, readings);
		const truth = pack.faults.indexOf(callout.fault!);
		logLoss -= Math.log(faults[truth]) / calloutsTried;
		faults.forEach((p, fault) => held.push({ p, isTrue: fault === truth }));
	}
	return { held, logLoss };
}

/** Share that came true of those held within a band, with what was held on average and how sure the share is. */
function band(held: readonly Held[], from: number, to: number) {
	const within = held.filter(({ p }) => p >= from && p < to);
	const mean = within.reduce((sum, { p }) => sum + p, 0) / within.length;
	const share = within.filter(({ isTrue }) => isTrue).length / within.length;
	return { count: within.length, mean, share, error: Math.sqrt((mean * (1 - mean)) / within.length) };
}

describe.each(tables)('$id', ({ pack, table }) => {
	describe.each([
		['with direct measurements of parts', () => true, firstSeed],
		['without direct measurements of parts', (check: Check) => !isDirect(check), firstSeed + calloutsTried]
	])('belief %s', (_, allowed, first) => {
		const { held, logLoss } = heldOver(pack, table, allowed, first);

		it.each([
			[0.05, 0.2],
			[0.2, 0.4],
			[0.4, 0.7],
			[0.7, 0.9],
			[0.9, 1]
		])('held from %f to %f comes true about as often', (from, to) => {
			const { count, mean, share, error } = band(held, from, to);
			expect(count).toBeGreaterThan(20);
			// Six parts in a hundred for what a finite table cannot know, and three standard errors of the count.
			expect(Math.abs(share - mean), `held ${mean.toFixed(2)}, true ${share.toFixed(2)} of ${count}`).toBeLessThan(0.06 + 3 * error);
		});

		it('knows more than the frequency of faults alone', () => {
			const total = pack.faults.reduce((sum, fault) => sum + fault.weight, 0);
			const frequency = pack.faults.reduce((sum, fault) => sum - (fault.weight / total) * Math.log(fault.weight / total), 0);
			expect(logLoss).toBeLessThan(frequency / 2);
		});
	});
});
