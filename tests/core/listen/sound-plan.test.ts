/** What is heard follows what was listened to. */
import { describe, expect, it } from 'vitest';
import type { RunTrace } from '#shared/callout/state.ts';
import { follow } from '#shared/callout/follow.ts';
import { soundPlan, soundWords, timesFaster } from '$lib/bench/listen/sound-plan';
import { keepSound, keptSound } from '$lib/bench/listen/sound-setting';
import { calloutsWith, combi } from '../../sampled.ts';

const traceOf = (fan: number[], burner: number[], sparks: number[]): RunTrace => ({
	seconds: fan.map((_, i) => i * 12),
	lines: [
		{ signal: 'fanPercent', says: 'Fan speed', unit: '%', values: fan },
		{ signal: 'burnerOn', says: 'Burner lit', unit: '1', values: burner },
		{ signal: 'sparking', says: 'Igniter sparking', unit: '1', values: sparks }
	]
});

describe('a sound plan', () => {
	const plan = soundPlan(traceOf([0, 50, 100, 50], [0, 0, 1, 1], [0, 1, 0, 0]), 'tap');

	it('is the run, twelve times faster', () => {
		expect(timesFaster).toBe(12);
		expect(plan.seconds).toBe(3);
		expect(plan.fan.map(({ at }) => at)).toEqual([0, 1, 2, 3]);
	});
	it('pitches the fan an octave higher for twice its speed, and louder; a fan that stands is silent', () => {
		const [still, half, full] = plan.fan;
		expect(full!.whineHz).toBeCloseTo(2 * half!.whineHz);
		expect(full!.whineGain).toBeGreaterThan(half!.whineGain);
		expect(full!.airGain / half!.airGain).toBeCloseTo(4);
		expect([still!.whineGain, still!.airGain]).toEqual([0, 0]);
	});
	it('rumbles while lit, more with more gas, and not otherwise', () => {
		const [a, b, c, d] = plan.burner.map(({ gain }) => gain);
		expect([a, b]).toEqual([0, 0]);
		expect(c).toBeGreaterThan(d!);
		expect(d).toBeGreaterThan(0);
	});
	it('ticks only while the igniter sparks', () => {
		expect(plan.ticks.length).toBeGreaterThan(5);
		for (const { at } of plan.ticks) {
			expect(at).toBeGreaterThanOrEqual(1);
			expect(at).toBeLessThan(2);
		}
	});
	it('lets water rush when a tap runs, less when it is part open, and never for heating', () => {
		const water = (demand: 'tap' | 'part-tap' | 'both' | 'heating' | 'none') => soundPlan(traceOf([0], [0], [0]), demand).water;
		expect(water('tap')).toBe(water('both'));
		expect(water('part-tap')).toBeLessThan(water('tap'));
		expect(water('part-tap')).toBeGreaterThan(0);
		expect([water('heating'), water('none')]).toEqual([0, 0]);
	});
	it('says nothing of what was not followed', () => {
		const bare = soundPlan({ seconds: [0, 240], lines: [] }, 'heating');
		expect(bare).toMatchObject({ fan: [], burner: [], ticks: [], water: 0, seconds: 20 });
	});
});

it('never clips, rises with time and ticks for the shortest spark, on whatever appliance', () => {
	const listen = combi.checks.find(({ id }) => id === 'listen-fan-over-time')!;
	for (const fault of ['plate-scaled', 'turbine-sticking', 'gas-valve-shut', 'board-dead']) {
		for (const { faulty } of calloutsWith(fault, 3)) {
			const trace = follow(combi, faulty, listen, 'tap')!;
			const plan = soundPlan(trace, 'tap');
			const loudest = (gains: number[]) => Math.max(0, ...gains);
			const sum =
				loudest(plan.fan.map((f) => f.whineGain + f.airGain)) +
				loudest(plan.burner.map((b) => b.gain)) +
				loudest(plan.ticks.map((t) => t.gain)) +
				plan.water;
			expect(sum).toBeLessThanOrEqual(1);
			expect(plan.fan.every(({ at }, i) => i === 0 || at > plan.fan[i - 1]!.at)).toBe(true);
			const sparked = trace.lines.find(({ signal }) => signal === 'sparking')!.values.includes(1);
			expect(plan.ticks.length > 0).toBe(sparked);
		}
	}
});

it('says in words what each sound is, and how much faster it is played', () => {
	const words = soundWords(traceOf([0], [0], [0]), 'tap');
	for (const said of ['12 times faster', 'fan', 'igniter', 'burner', 'water']) expect(words).toContain(said);
	expect(soundWords(traceOf([0], [0], [0]), 'heating')).not.toContain('water');
	expect(soundWords({ seconds: [0], lines: [] }, 'tap')).not.toMatch(/fan|igniter|burner/);
});

describe('the sound setting', () => {
	const storage = (kept: string | null) => () => ({ getItem: () => kept });
	it('is off until asked for, and off where what was kept makes no sense', () => {
		for (const kept of [null, '', '{', '1', '{"on":true}', '{"on":true,"volume":7}', '{"on":"yes","volume":0.5}']) {
			expect(keptSound(storage(kept)).on, String(kept)).toBe(false);
		}
		expect(
			keptSound(() => {
				throw new Error('storage is shut');
			}).on
		).toBe(false);
	});
	it('comes back as it was kept', () => {
		let kept = '';
		keepSound(() => ({ setItem: (_, value) => (kept = value) }), { on: true, volume: 0.3 });
		expect(keptSound(storage(kept))).toEqual({ on: true, volume: 0.3 });
	});
});
