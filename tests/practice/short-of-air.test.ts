// An open burner that is short of air makes carbon monoxide: common practice, no published source. The limit is that of the rules.
import { describe, expect, test } from 'vitest';
import type { Machine } from '#shared/callout/callout.ts';
import { stockNamed } from '../sampled.ts';

const coil = stockNamed('combi-tap-coil');
const limit = coil.pack.rules.limits['co-ratio'].value;
const many = 300;

/** Machines of the fault that light for the tap, whether or not anybody would complain, each with its run and that of it sound. */
function lit(fault: string) {
	return runsOf(coil.machinesWith(fault, many)).filter(({ ill }) => ill.burnerOnFraction > 0.9);
}
const runsOf = (machines: readonly Machine[]) =>
	machines.map(({ faulty, sound }) => ({ ill: coil.run(faulty, 'tap'), well: coil.run(sound, 'tap') }));

test('a sound one stays far within the limit, whatever is asked of it', () => {
	for (const { faulty } of coil.machinesWith('none', many)) {
		for (const demand of ['tap', 'part-tap', 'heating', 'both'] as const)
			expect(coil.run(faulty, demand).coRatio).toBeLessThan(0.5 * limit);
	}
});

describe('a sooted main exchanger that still lights', () => {
	test('is beyond the limit in most', () => {
		const machines = lit('fins-sooted');
		expect(machines.length).toBeGreaterThan(40);
		expect(machines.filter(({ ill }) => ill.coRatio > limit).length / machines.length).toBeGreaterThan(0.6);
		for (const { ill, well } of machines) expect(ill.coRatio).toBeGreaterThan(well.coRatio);
	});

	test('leaves its flue gas hotter than a sound one, and no hotter than a sooted flue is met', () => {
		for (const { ill, well } of lit('fins-sooted')) {
			expect(ill.flueTempC).toBeGreaterThan(well.flueTempC + 30);
			expect(ill.flueTempC).toBeLessThan(300);
		}
	});
});

describe('a part blocked flue', () => {
	test('still lights in some, with less air at the switch than it had, and more carbon monoxide', () => {
		const machines = lit('flue-restricted');
		expect(machines.length).toBeGreaterThan(60);
		expect(machines.length).toBeLessThan(0.8 * many);
		for (const { ill, well } of machines) {
			expect(ill.airSwitchMbar).toBeLessThan(0.9 * well.airSwitchMbar);
			expect(ill.coRatio).toBeGreaterThan(well.coRatio);
		}
		expect(machines.filter(({ ill }) => ill.coRatio > limit).length).toBeGreaterThan(10);
	});
});

test.each(['fins-sooted', 'flue-restricted'])('%s brings callouts to a burner that lights and is beyond the limit', (fault) => {
	const found = runsOf(coil.calloutsWith(fault, 120)).filter(({ ill }) => ill.burnerOnFraction > 0.9 && ill.coRatio > limit);
	expect(found.length).toBeGreaterThan(5);
});
