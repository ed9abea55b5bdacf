import { describe, expect, it } from 'vitest';
import type { Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState, Prediction, Reading } from '#shared/callout/state.ts';
import { bandOf } from '#shared/callout/take-check.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { debrief } from '#shared/marking/debrief.ts';
import { gapOf, gapsOf } from '#shared/marking/gap.ts';
import { mark } from '#shared/marking/mark.ts';
import { tellsApart } from '#shared/marking/tells-apart.ts';
import { does } from '../callout/drive.ts';
import { callouts, curing, leave, pack, repair, table } from './walk.ts';

const [sample] = callouts(1);
const demand: Action = { kind: 'demand', demand: 'tap' };
const tapTemperature = 'measure-tap-temperature';
const index = (fault: string) => pack.faults.findIndex(({ id }) => id === fault);
const columnOf = (check: string, under: string) => table.columns.find((one) => one.check === check && one.demand === under)!;
const checkOf = (id: string) => pack.checks.find((check) => check.id === id)!;

/** Values of a fault's machines with the share of each, from the table as it lies. */
function machines(fault: string, check: string, under: string): { value: number; share: number }[] {
	const rows = [...table.fault.keys()].filter((row) => table.fault[row] === index(fault));
	const total = rows.reduce((sum, row) => sum + table.prior[row], 0);
	return rows.map((row) => ({ value: columnOf(check, under).values[row], share: table.prior[row] / total }));
}
const shareOf = (all: ReturnType<typeof machines>, wanted: (value: number) => boolean) =>
	all.reduce((sum, { value, share }) => sum + (wanted(value) ? share : 0), 0);

const reading = (check: string, value: number, more: Partial<Reading> = {}): Reading => ({
	event: 2,
	check,
	demand: 'tap',
	value,
	text: String(value),
	unit: checkOf(check).unit,
	minute: 5,
	after: [],
	...more
});
const said = (check: string, ...expects: [string, string][]): Prediction => ({
	event: 1,
	check,
	demand: 'tap',
	expects: expects.map(([fault, reads]) => ({ fault, reads })),
	observed: 2,
	lapsed: false
});
const gapFor = (one: Reading, ...expects: [string, string][]) => gapOf(pack, table, said(one.check, ...expects), one)!;
/** Shares of a fault's machines below, within and above the band of sound ones. */
function against(fault: string, check: string) {
	const { from, to } = columnOf(check, 'tap').healthy;
	const all = machines(fault, check, 'tap');
	return {
		lower: shareOf(all, (v) => v < from),
		'as-sound': shareOf(all, (v) => v >= from && v <= to),
		higher: shareOf(all, (v) => v > to)
	};
}
const [mostlyLow] = pack.faults.filter(({ id }) => against(id, tapTemperature).lower > 0.95).map(({ id }) => id);
const [asSound] = pack.faults.filter(({ id }) => against(id, tapTemperature)['as-sound'] > 0.8).map(({ id }) => id);

describe('the gap between a prediction and a reading', () => {
	it('gives the span of nine machines in ten with the fault, from the table', () => {
		for (const fault of pack.faults.slice(0, 12).map(({ id }) => id)) {
			const all = machines(fault, tapTemperature, 'tap');
			const [one] = gapFor(reading(tapTemperature, 30), [fault, 'lower'], [fault === asSound ? mostlyLow! : asSound!, 'lower']).faults;
			const [low, high = low] = one!.truly.match(/[\d.]+/g)!.map(Number);
			// A machine at the edge is rounded to the instrument's step, and stands for itself on either side.
			const step = 0.1;
			expect(
				shareOf(all, (value) => value >= low! - step && value <= high! + step),
				one!.truly
			).toBeGreaterThanOrEqual(0.89);
			expect(
				shareOf(all, (value) => value < low! - step),
				one!.truly
			).toBeLessThanOrEqual(0.06);
			expect(
				shareOf(all, (value) => value > high! + step),
				one!.truly
			).toBeLessThanOrEqual(0.06);
		}
	});

	it('gives the words that the machines with the fault read, the oftenest first', () => {
		const check = pack.checks.find(({ words, under, way }) => words && words.length > 2 && under.includes('tap') && way === 'feel')!;
		const words = check.words!.map(({ word }) => word);
		let mixed = 0;
		for (const fault of pack.faults.map(({ id }) => id)) {
			const all = machines(fault, check.id, 'tap');
			const shares = words.map((_, band) => shareOf(all, (value) => bandOf(check, value) === band));
			const [one] = gapFor(reading(check.id, 0), [fault, words[0]!], [fault === asSound ? mostlyLow! : asSound!, words[0]!]).faults;
			const named = one!.truly.split(/, at times | or /);
			expect(named).toEqual(
				words
					.map((word, band) => ({ word, share: shares[band]! }))
					.filter(({ share }) => share >= 0.05)
					.toSorted((a, b) => b.share - a.share)
					.map(({ word }) => word)
			);
			expect(one!.truly.includes(', at times '), one!.truly).toBe(named.length > 1 && Math.max(...shares) >= 0.75);
			if (named.length > 1) mixed++;
		}
		expect(mixed).toBeGreaterThan(2);
	});

	it('says whether the prediction fits most machines, some, or few', () => {
		const fitOf = (fault: string, reads: string) =>
			gapFor(reading(tapTemperature, 30), [fault, reads], [fault === asSound ? mostlyLow! : asSound!, 'lower']).faults[0]!.fit;
		expect(fitOf(mostlyLow!, 'lower')).toBe('fits');
		for (const reads of ['as-sound', 'higher', 'cannot-tell']) expect(fitOf(mostlyLow!, reads)).toBe('misses');
		expect(fitOf(asSound!, 'as-sound')).toBe('fits');
		let parted = 0;
		for (const { id } of pack.faults) {
			for (const [reads, share] of Object.entries(against(id, tapTemperature))) {
				// Near the thresholds the instrument's step decides.
				if (share > 0.8) expect(fitOf(id, reads), id).toBe('fits');
				if (share > 0.3 && share < 0.7) expect(fitOf(id, reads), `${id} ${reads}`).toBe('partly');
				if (share < 0.2) expect(fitOf(id, reads), id).toBe('misses');
				if (share > 0.3 && share < 0.7) parted++;
			}
		}
		expect(parted).toBeGreaterThan(0);
	});

	it('says which of them the reading speaks for, and that of neither where neither reads so', () => {
		const lows = machines(mostlyLow!, tapTemperature, 'tap').map(({ value }) => value);
		const typical = lows.toSorted((a, b) => a - b)[lows.length >> 1]!;
		const name = (id: string) => pack.faults[index(id)]!.says;
		const gap = gapFor(reading(tapTemperature, Number(typical.toFixed(1))), [asSound!, 'as-sound'], [mostlyLow!, 'lower']);
		expect(gap.stands).toBe('lower than sound');
		expect(gap.says[0]).toMatch(/^It (speaks for|leans to) /);
		expect(gap.says[0]!.indexOf(name(mostlyLow!))).toBeLessThan(gap.says[0]!.indexOf(name(asSound!)));
		expect(gapFor(reading(tapTemperature, 99), [asSound!, 'as-sound'], [mostlyLow!, 'lower']).says[0]).toMatch(
			/^None of the two usually reads this/
		);
	});

	it('puts odds into words by how far they are apart', () => {
		const say = (...likelihoods: number[]) => tellsApart(likelihoods.map((likelihood, at) => ({ says: 'ABC'[at]!, likelihood })));
		expect(say(1, 1.9)).toEqual(['The reading does not tell the two apart.']);
		expect(say(1, 3)).toEqual(['It leans to "B" over "A", about 3 to 1.']);
		expect(say(12, 1)).toEqual(['It speaks for "A" over "B", about 12 to 1.']);
		expect(say(1, 1e9, 1e9)).toEqual(['It speaks for "B" over "A", more than 50 to 1.', 'It does not tell "B" from "C".']);
		expect(say(1, 1, 1)).toEqual(['The reading does not tell the three apart.']);
	});

	it('takes a fault that the work before has cured for a sound machine', () => {
		const [remedy] = pack.faults[index(mostlyLow!)]!.cured;
		const after = gapFor(reading(tapTemperature, 50, { after: [remedy!] }), [mostlyLow!, 'lower'], [asSound!, 'lower']);
		expect(after.faults[0]!.truly).toBe(after.sound);
		expect(after.faults[0]!.fit).toBe('misses');
	});

	it('compares nothing where the instrument measured something else, and says of one set by hand that it may be wrong', () => {
		const setting = { range: 'whatever', stands: null, whole: false };
		const other = gapFor(reading(tapTemperature, 0, { unit: 'V', setting }), [mostlyLow!, 'lower'], [asSound!, 'lower']);
		expect(other.says).toEqual(['The instrument was set to measure something else: there is nothing to compare.']);
		expect(other.stands).toBeNull();
		const byHand = gapFor(
			reading(tapTemperature, 30, { setting: { stands: null, whole: false } }),
			[mostlyLow!, 'lower'],
			[asSound!, 'lower']
		);
		const itself = gapFor(reading(tapTemperature, 30), [mostlyLow!, 'lower'], [asSound!, 'lower']);
		expect(byHand.says).toEqual([...itself.says, 'The instrument was set by hand: this holds where it was set right.']);
	});
});

/** The path with each check predicted before it is taken. */
function coached(state: CalloutState): Action[] {
	const [one, other] = pack.faults;
	const expects = [one!, other!].map(({ id }) => ({ fault: id, reads: 'cannot-tell' }));
	return state.events.flatMap(({ action, index, readings, breaches }): Action[] => {
		const [read] = readings;
		const isRead = state.readings.some(
			(one) => one.event < index && one.check === read?.check && one.demand === read.demand && one.after.length === read.after.length
		);
		return action.kind === 'check' && breaches.length === 0 && !isRead
			? [{ kind: 'predict', check: action.check, expects }, action]
			: [action];
	});
}

describe('a coached callout', () => {
	it('has the marks of the same path without predictions, line by line', () => {
		for (const callout of callouts(3, 91_000)) {
			const guessed = leave(callout, repair(callout, does(callout, [demand, { kind: 'check', check: tapTemperature }]), curing(callout)));
			for (const plain of [soundPath(callout, table).state, guessed]) {
				const whole = does(callout, coached(plain));
				expect(whole.predictions.length).toBeGreaterThan(0);
				const { lines, ...sheet } = mark(callout, whole, table);
				const { lines: plainLines, ...plainSheet } = mark(callout, plain, table);
				expect(sheet).toEqual(plainSheet);
				expect(lines.map(({ event, ...line }) => line)).toEqual(plainLines.map(({ event, ...line }) => line));
			}
		}
	});

	it('has its gaps in the debrief, one for each prediction that was observed', () => {
		const whole = does(sample!, coached(soundPath(sample!, table).state));
		const { gaps, path } = debrief(sample!, whole, table);
		expect(gaps.map(({ event }) => event)).toEqual(whole.predictions.map(({ event }) => event));
		for (const { event } of gaps) expect(path[event]).toMatchObject({ regret: null, minutes: 0 });
	});

	it('shows one gap for one reading, whatever fault hides', () => {
		const checks = pack.checks
			.filter(({ under, needs, way, noticed }) => under.includes('tap') && needs.length === 0 && way !== 'ask' && !noticed)
			.map(({ id }) => id);
		const seen = new Map<string, { fault: string; gap: string }>();
		let compared = 0;
		for (let seed = 100; seed < 102; seed++) {
			for (const { id: fault } of pack.faults) {
				const callout = makeCallout(pack, seed, fault);
				const path = checks.map((check): Action => ({ kind: 'check', check }));
				const state = does(callout, coached(does(callout, [demand, ...path])));
				const gaps = gapsOf(pack, state, table);
				expect(gaps).toHaveLength(checks.length);
				for (const gap of gaps) {
					const key = JSON.stringify([gap.event, gap.check, gap.reading]);
					const before = seen.get(key);
					if (before && before.fault !== fault) compared++;
					if (before) expect(JSON.stringify(gap)).toBe(before.gap);
					else seen.set(key, { fault, gap: JSON.stringify(gap) });
				}
			}
		}
		expect(compared).toBeGreaterThan(100);
	});
});
