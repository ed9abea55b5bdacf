import { describe, expect, it } from 'vitest';
import { act } from '#shared/callout/act.ts';
import { action, type Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import { settled } from '#shared/callout/run.ts';
import { shownCheck } from '#shared/callout/setting.ts';
import type { CalloutState, Chosen } from '#shared/callout/state.ts';
import { trueValue } from '#shared/callout/take-check.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { observe } from '#shared/quantity/instrument.ts';
import { chance } from '#shared/quantity/random.ts';
import { combiPack } from './combi-pack.ts';
import { check, demand, does, refusal, step } from './drive.ts';

const set = (id: string, chosen: Chosen): Action => ({ kind: 'check', check: id, ...chosen });
const open = [step('open-casing')];
const dead = [...open, step('isolate-electricity'), step('prove-dead')];
const tapOn = [...open, demand('tap')];
/** A machine whose electrics are sound. */
const sound = makeCallout(combiPack, 5, 'plate-scaled');
const last = (state: CalloutState) => state.readings.at(-1)!;
const reads = (callout: Callout, path: readonly Action[]) => last(does(callout, path));
const truth = (callout: Callout, id: string, under: 'none' | 'tap' = 'none') =>
	trueValue(
		callout,
		combiPack.checks.find((one) => one.id === id)!,
		under,
		false
	);

describe('an instrument left to itself', () => {
	it('reads to the last digit what it read before it could be set by hand', () => {
		const isolated = [step('isolate-electricity'), step('prove-dead')];
		const ohms = ['measure-flow-sensor-off', 'measure-diverter-winding', 'test-earth'].map(check);
		const volts = ['measure-diverter-tap', 'measure-flue-pressure'].map(check);
		const { readings } = does(sound, [...open, check('measure-board'), demand('tap'), ...volts, ...isolated, ...ohms]);
		const measured = readings.filter((reading) => reading.check.startsWith('measure') || reading.check === 'test-earth');
		expect(measured).toHaveLength(6);
		for (const reading of measured) {
			const one = combiPack.checks.find(({ id }) => id === reading.check)!;
			const own = combiPack.instruments.find(({ id }) => id === one.instrument)!;
			// The chance of a look, as stored paths have always drawn it.
			const stream = chance(sound.seed, 'check', one.id, reading.demand, 0);
			const { value, text } = observe(trueValue(sound, one, reading.demand, false), own, stream);
			expect(reading).toMatchObject({ value, text, unit: one.unit });
			expect(reading).not.toHaveProperty('setting');
		}
	});

	it('keeps the stored action as it was', () => {
		expect(JSON.stringify(action.parse({ kind: 'check', check: 'measure-spur' }))).toBe('{"kind":"check","check":"measure-spur"}');
	});
});

describe('a range in ohms', () => {
	const sensor = truth(sound, 'measure-flow-sensor-off');

	it('too low for it shows over range, and does not count as the check taken', () => {
		const reading = reads(sound, [...dead, set('measure-flow-sensor-off', { range: 'ohms-200' })]);
		expect(sensor).toBeGreaterThan(5000);
		expect(reading).toMatchObject({ value: Infinity, text: 'over range', unit: 'ohm' });
		expect(shownCheck(reading)).toBeNull();
	});

	it.each([
		{ range: 'ohms-20k', stepOhm: 10, counts: true },
		{ range: 'ohms-200k', stepOhm: 100, counts: true },
		{ range: 'ohms-2m', stepOhm: 1000, counts: false }
	])('$range reads in steps of $stepOhm ohm', ({ range, stepOhm, counts }) => {
		const reading = reads(sound, [...dead, set('measure-flow-sensor-off', { range })]);
		expect(reading.value % stepOhm).toBe(0);
		// Three deviations of 0.8 % and one and a half steps, and the rounding.
		expect(Math.abs(reading.value - sensor)).toBeLessThan(0.024 * sensor + 5.1 * stepOhm);
		expect(shownCheck(reading)).toBe(counts ? 'measure-flow-sensor-off' : null);
	});

	it('shows over range on an open circuit whatever it is, and that counts only where it would have shown it by itself', () => {
		const broken = makeCallout(combiPack, 5, 'return-sensor-open');
		const open = reads(broken, [...dead, set('measure-return-sensor-off', { range: 'ohms-20k' })]);
		expect(truth(broken, 'measure-return-sensor-off')).toBe(Infinity);
		expect(open.text).toBe('over range');
		expect(shownCheck(open)).toBe('measure-return-sensor-off');
	});

	it('of a thousandth of what is looked for is too coarse to prove an earth', () => {
		const coarse = reads(sound, [...dead, set('test-earth', { range: 'ohms-2k' })]);
		const fine = reads(sound, [...dead, set('test-earth', { range: 'ohms-200' })]);
		// Three deviations of 2 ohm, and the rounding: whatever the earth is, nobody can tell.
		expect(coarse.value).toBeLessThanOrEqual(7);
		expect(shownCheck(coarse)).toBeNull();
		expect(shownCheck(fine)).toBe('test-earth');
	});

	it.each(['volts-ac-250', 'volts-ac-600', 'volts-dc-20'])('of none, %s, reads nought on a dead circuit', (range) => {
		const reading = reads(sound, [...dead, set('measure-flow-sensor-off', { range })]);
		expect(reading).toMatchObject({ value: 0, unit: 'V' });
		expect(reading.text).toMatch(/^0(\.0+)?$/);
		expect(shownCheck(reading)).toBeNull();
	});
});

describe('a range in volts on a live circuit', () => {
	it.each([
		{ range: 'volts-ac-250', text: /^2[0-4]\d\.\d$/ },
		{ range: 'volts-ac-600', text: /^2[0-4]\d$/ },
		{ range: 'volts-ac-20', text: /^over range$/ },
		{ range: 'volts-dc-20', text: /^0\.00$/ }
	])('$range shows what it would', ({ range, text }) => {
		expect(reads(sound, [set('measure-spur', { range })]).text).toMatch(text);
	});
});

describe('a range in ohms on a live circuit', () => {
	const path = [...open, check('measure-board'), set('measure-board', { range: 'ohms-20k' })];

	it('blows the fuse of the meter: a breach, no reading, and the walk to the van for another', () => {
		const state = does(sound, path);
		const event = state.events.at(-1)!;
		expect(event).toMatchObject({ minutes: 1, breaches: ['meter-on-live-circuit'], readings: [] });
		expect(event.says.join(' ')).toMatch(/Stopped.*fuse has blown/);
		expect(viewOf(sound, state).events.at(-1)?.breaches[0]?.why).toMatch(/ohms range is for a dead circuit/);
		expect(state.ended).toBeNull();
		expect([...state.fetched]).toEqual([]);
		const again = does(sound, [check('measure-board')], state).events.at(-1)!;
		expect(again.minutes).toBe(combiPack.checks.find(({ id }) => id === 'measure-board')!.minutes + combiPack.rules.fetchMinutes);
	});

	it('is no less a breach where there is no voltage, but the meter lives', () => {
		const state = does(sound, [...open, set('measure-board', { range: 'ohms-2k', terminals: ['neutral', 'earth'] })]);
		expect(state.events.at(-1)?.breaches).toEqual(['meter-on-live-circuit']);
		expect([...state.fetched]).toEqual(['multimeter']);
		expect(state.events.at(-1)?.says.join(' ')).not.toMatch(/blown/);
	});

	it('is not dangerous, and costs marks', () => {
		const rule = combiPack.rules.safety.find(({ id }) => id === 'meter-on-live-circuit')!;
		expect(rule.dangerous).toBe(false);
		expect(rule.marks).toBeGreaterThan(0);
	});
});

describe('leads on other terminals', () => {
	const on = (terminals: [string, string], id = 'measure-diverter-tap') => reads(sound, [...tapOn, set(id, { terminals })]);

	it('the right two, either way round, read as the check does', () => {
		for (const terminals of [
			['hot-water', 'neutral'],
			['neutral', 'hot-water']
		] as [string, string][]) {
			const reading = on(terminals);
			expect(Math.abs(reading.value - truth(sound, 'measure-diverter-tap', 'tap'))).toBeLessThan(6);
			expect(shownCheck(reading)).toBe('measure-diverter-tap');
		}
	});

	it('neutral to earth reads about nothing, and says nothing', () => {
		const reading = on(['neutral', 'earth']);
		expect(Math.abs(reading.value)).toBeLessThanOrEqual(3);
		expect(reading.text).not.toContain('-');
		expect(shownCheck(reading)).toBeNull();
	});

	it('the heating terminal reads the heating terminal, and counts as that check', () => {
		const reading = on(['heating', 'neutral']);
		expect(Math.abs(reading.value - settled(sound, false, 'tap')['diverterHeatingV']!)).toBeLessThan(4);
		expect(reading.value).toBeLessThan(100);
		expect(shownCheck(reading)).toBe('measure-diverter-heating');
	});

	it('terminal to terminal reads the difference', () => {
		const run = settled(sound, false, 'tap');
		const reading = on(['hot-water', 'heating']);
		expect(Math.abs(reading.value - Math.abs(run['diverterTapV']! - run['diverterHeatingV']!))).toBeLessThan(6);
		expect(shownCheck(reading)).toBeNull();
	});

	it('both windings in series read twice one; a winding to the case reads open', () => {
		const one = truth(sound, 'measure-diverter-winding');
		const winding = (terminals: [string, string]) => reads(sound, [...dead, set('measure-diverter-winding', { terminals })]);
		expect(winding(['hot-water', 'heating']).value / one).toBeCloseTo(2, 1);
		expect(winding(['neutral', 'case']).text).toBe('over range');
	});
});

describe('a manometer', () => {
	it('on its fine range is past its end on gas pressure, and so is a fall of that pressure', () => {
		expect(reads(sound, [...open, set('measure-gas-standing', { range: 'mbar-5' })]).text).toBe('over range');
		expect(reads(sound, [set('test-tightness', { range: 'mbar-5' })]).text).toBe('over range');
		const tight = reads(sound, [set('test-tightness', { range: 'mbar-150' })]);
		expect(shownCheck(tight)).toBe('test-tightness');
	});
});

describe('what cannot be chosen', () => {
	const state = does(sound, open);

	it('is refused, and no time passes', () => {
		expect(refusal(sound, state, set('measure-board', { range: 'mbar-5' }))).toMatch(/multimeter has no range "mbar-5"/);
		expect(refusal(sound, state, set('measure-board', { terminals: ['live', 'heating'] }))).toMatch(/no test point "heating"/);
		expect(refusal(sound, state, set('measure-board', { terminals: ['live', 'live'] }))).toMatch(/on one point/);
		expect(refusal(sound, state, set('look-trap', { range: 'ohms-2k' }))).toMatch(/without an instrument/);
	});
});

describe('a path with instruments set by hand', () => {
	const path = [
		...tapOn,
		set('measure-diverter-tap', { range: 'volts-ac-600', terminals: ['heating', 'earth'] }),
		set('measure-diverter-tap', { range: 'ohms-200' }),
		step('isolate-electricity'),
		step('prove-dead'),
		set('measure-flow-sensor-off', { range: 'ohms-20k', terminals: ['first', 'second'] })
	];

	it('replays to the last digit from its stored JSON', () => {
		const stored = path.map((one) => action.parse(JSON.parse(JSON.stringify(one))));
		expect(replay(sound, stored)).toEqual(does(sound, path));
	});

	it('is shown with its setting in words, and never with what it in truth read', () => {
		const view = viewOf(sound, does(sound, path));
		expect(view.readings.at(-1)?.setting).toBe('ohms 20k, first pin to second pin');
		expect(view.events.at(-1)?.did).toBe('Flow sensor off its pipe (ohms 20k, first pin to second pin)');
		expect(JSON.stringify(view)).not.toMatch(/"(whole|others|reads)":/);
		expect(Object.keys(view.readings.at(-1)!)).not.toContain('stands');
	});

	it('over range looks the same for an open circuit and for a range too low', () => {
		const low = viewOf(sound, does(sound, [...dead, set('measure-return-sensor-off', { range: 'ohms-2k' })]));
		const broken = makeCallout(combiPack, 5, 'return-sensor-open');
		const cut = viewOf(broken, does(broken, [...dead, set('measure-return-sensor-off', { range: 'ohms-2k' })]));
		expect(low.readings.at(-1)).toEqual(cut.readings.at(-1));
	});

	it('keeps the tools and their ranges to what a face needs', () => {
		const { tools } = viewOf(sound, does(sound, []));
		const meter = tools.find(({ id }) => id === 'multimeter')!;
		expect(meter.ranges.map(({ name }) => name)).toEqual([
			'ohms 200',
			'ohms 2k',
			'ohms 20k',
			'ohms 200k',
			'ohms 2M',
			'volts a.c. 20',
			'volts a.c. 250',
			'volts a.c. 600',
			'volts d.c. 20'
		]);
		expect('refused' in act(sound, does(sound, []), set('measure-spur', { range: meter.ranges[6]!.id }))).toBe(false);
	});
});
