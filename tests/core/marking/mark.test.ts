import { describe, expect, it } from 'vitest';
import { replay } from '#shared/callout/replay.ts';
import { act } from '#shared/callout/act.ts';
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { beliefAfter } from '#shared/diagnosis/belief.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { judgePath } from '#shared/marking/judged-path.ts';
import { criteria } from '#shared/marking/mark-sheet.ts';
import { mark } from '#shared/marking/mark.ts';
import { callouts, curing, follow, leave, pack, repair, soundPart, start, table } from './walk.ts';
import { planCheck, planRemedy } from '#shared/diagnosis/plan.ts';

const sample = callouts(16);

describe('the sound path', () => {
	it('cures, proves and leaves without a breach, by actions that the callout accepts again', () => {
		for (const callout of sample) {
			const { actions, state } = soundPath(callout, table);
			expect(state.cured, callout.fault!.id).toBe(true);
			expect(state.ended).toBe('left');
			expect(state.provedAt).not.toBeNull();
			expect(state.events.flatMap((event) => event.breaches)).toEqual([]);
			expect(replay(callout, actions).readings).toEqual(state.readings);
		}
	});

	it('is marked sound or fluent, and keeps nearly all marks', () => {
		const sheets = sample.map((callout) => mark(callout, soundPath(callout, table).state, table));
		const good = sheets.filter((sheet) => sheet.total >= 90 && (sheet.recall === 'sound' || sheet.recall === 'fluent'));
		expect(good.length).toBeGreaterThanOrEqual(sheets.length - 2);
	});

	it('fits hardly a sound part', () => {
		const wrong = sample.flatMap((callout) =>
			soundPath(callout, table).state.remedies.filter((done) => !done.cured && done.remedy.startsWith('fit-'))
		);
		expect(wrong.length).toBeLessThanOrEqual(2);
	});
});

describe('a mark sheet', () => {
	it('is the same for the same path, and its lines add up to its total', () => {
		for (const callout of sample.slice(0, 6)) {
			const { actions, state } = soundPath(callout, table);
			const sheet = mark(callout, state, table);
			expect(mark(callout, replay(callout, actions), table)).toEqual(sheet);
			const lost = sheet.lines.reduce((sum, line) => sum + line.lost, 0);
			expect(sheet.total).toBeCloseTo(sheet.outOf - lost, 6);
			expect(sheet.packHash).toBe(pack.hash);
			expect(sheet.seed).toBe(callout.seed);
			for (const criterion of criteria) expect(sheet.lines.some((line) => line.criterion === criterion)).toBe(true);
		}
	});

	it('takes marks for the right part fitted by luck, and calls the skill lost', () => {
		const guessed = sample.filter((callout) => curing(callout).kind === 'fit');
		expect(guessed.length).toBeGreaterThan(4);
		for (const callout of guessed) {
			const remedy = curing(callout);
			const sheet = mark(callout, leave(callout, repair(callout, start(), remedy, 'proved')), table);
			const part = sheet.lines.find((line) => line.criterion === 'parts')!;
			expect(part.lost, callout.fault!.id).toBeGreaterThan(0);
			expect(part.says).toMatch(/by luck/);
			expect(sheet.recall).toBe('lost');
			expect(sheet.byCriterion.evidence.got).toBeLessThan(sheet.byCriterion.evidence.outOf);
			expect(sheet.total).toBeLessThan(mark(callout, soundPath(callout, table).state, table).total);
		}
	});

	it('never rises by a sound part guessed first', () => {
		for (const callout of sample.slice(0, 8)) {
			const remedy = curing(callout);
			const straight = mark(callout, leave(callout, repair(callout, start(), remedy)), table);
			const detour = mark(callout, leave(callout, repair(callout, repair(callout, start(), soundPart(callout)), remedy)), table);
			expect(detour.total, callout.fault!.id).toBeLessThan(straight.total);
			expect(detour.lines.some((line) => line.criterion === 'parts' && /was sound/.test(line.says) && line.lost > 0)).toBe(true);
		}
	});

	it('keeps little for leaving with the fault still there', () => {
		for (const callout of sample.slice(0, 4)) {
			const sheet = mark(callout, leave(callout, start()), table);
			expect(sheet.recall).toBe('lost');
			expect(sheet.byCriterion.parts.got).toBe(0);
			expect(sheet.byCriterion.finish.got).toBe(0);
			expect(sheet.byCriterion.evidence.got).toBe(0);
			expect(sheet.byCriterion.economy.got).toBeLessThan(sheet.byCriterion.economy.outOf / 2);
		}
	});

	it('takes marks for a breach and fails the callout for a dangerous one', () => {
		const callout = sample[0];
		const fan = pack.remedies.find((remedy) => remedy.id === 'fit-fan')!;
		const open = follow(callout, start(), { ...planRemedy(pack, start(), fan)!, actions: [{ kind: 'step', step: 'open-casing' }] });
		const stopped = act(callout, open, { kind: 'remedy', remedy: 'fit-fan', sure: 'guess' });
		if ('refused' in stopped) throw new Error(stopped.refused);
		const sheet = mark(callout, stopped, table);
		expect(stopped.ended).toBe('stopped');
		expect(sheet.failed).toBe(true);
		expect(sheet.recall).toBe('lost');
		expect(sheet.byCriterion.safety.got).toBe(0);
	});

	it('takes marks for a repair not proved, and for a customer told nothing', () => {
		for (const callout of sample.slice(0, 4)) {
			const done = follow(callout, start(), planRemedy(pack, start(), curing(callout)));
			const left = leave(callout, done, ['advise-scald']);
			const lines = mark(callout, left, table).lines.filter((line) => line.criterion === 'finish' && line.lost > 0);
			expect(lines.some((line) => /not proved/.test(line.says))).toBe(true);
			expect(lines.some((line) => /not told what was found/.test(line.says))).toBe(true);
		}
	});

	it('judges statements by the evidence, not by the hidden fault', () => {
		for (const callout of sample.slice(0, 4)) {
			const looked = seenOnce(callout);
			const held = beliefAfter(callout, looked, table, looked.events.length).faults;
			const likeliest = pack.faults[held.indexOf(Math.max(...held))].id;
			const all = pack.faults.map((fault) => fault.id);
			const judged = (still: string[]) => {
				const state = act(callout, looked, { kind: 'judge', still });
				if ('refused' in state) throw new Error(state.refused);
				return mark(callout, leave(callout, state), table).byCriterion.evidence;
			};
			const without = judged(all.filter((id) => id !== likeliest));
			const careful = judged(all.filter((_, index) => held[index] > 0.01));
			expect(without.got).toBeLessThan(careful.got);
		}
	});

	it('gives nothing for reading the evidence to whoever took no check, however honest the guess, and calls the skill lost', () => {
		for (const callout of sample.slice(0, 4)) {
			const cure = curing(callout);
			const blind = repair(callout, start(), cure, 'guess');
			const sheet = mark(callout, leave(callout, blind), table);
			expect(blind.cured).toBe(true);
			expect(sheet.byCriterion.evidence.got).toBe(0);
			if (cure.kind === 'fit' || cure.disturbs.length > 0) expect(sheet.recall).toBe('lost');
			const seen = repair(callout, seenOnce(callout), cure, 'guess');
			expect(mark(callout, leave(callout, seen), table).byCriterion.evidence.got).toBeGreaterThan(0);
		}
	});
});

/** The tap's temperature, taken. */
function seenOnce(callout: Callout): CalloutState {
	const check = pack.checks.find(({ id }) => id === 'measure-tap-temperature')!;
	return follow(callout, start(), planCheck(pack, start(), check, 'tap'));
}

describe('regret', () => {
	it('is never below nought, and next to nothing along the sound path', () => {
		const shares = sample.map((callout) => {
			const path = judgePath(callout, soundPath(callout, table).state, table);
			for (const { regret } of path.events) expect(regret ?? 0).toBeGreaterThanOrEqual(0);
			return path.regret / path.soundCost;
		});
		shares.sort((a, b) => a - b);
		expect(shares[shares.length >> 1]).toBeLessThan(0.05);
	});

	it('counts a check that was taken already as its cost', () => {
		const callout = sample[1];
		const check = pack.checks.find((c) => c.id === 'measure-tap-temperature')!;
		const once = follow(callout, start(), planCheck(pack, start(), check, 'tap'));
		const twice = follow(callout, once, planCheck(pack, once, check, 'tap'));
		const last = judgePath(callout, twice, table).events.at(-1)!;
		expect(last.regret).toBeCloseTo((check.minutes * pack.rules.labourPerHour) / 60, 6);
	});
});
