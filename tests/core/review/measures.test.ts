/** What one callout says of how its learner works, on callouts of the real pack. */
import { describe, expect, it } from 'vitest';
import { act } from '#shared/callout/act.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { planRemedy } from '#shared/diagnosis/plan.ts';
import { measuresOf } from '#shared/review/progress/measures.ts';
import { callouts, curing, follow, leave, pack, repair, soundPart, start, table } from '../marking/walk.ts';

const sample = callouts(16);
const fitted = sample.filter((callout) => curing(callout).kind === 'fit');
const of = (callout: Callout, state: CalloutState) => measuresOf(callout, state);
/** The demand complained of, set; and the first check that shows the complaint taken under it. */
function seen(callout: Callout): CalloutState {
	const { demand, checks } = callout.complaint.proves;
	const set = act(callout, start(), { kind: 'demand', demand });
	if ('refused' in set) throw new Error(set.refused);
	const looked = act(callout, set, { kind: 'check', check: checks[0] });
	if ('refused' in looked) throw new Error(looked.refused);
	return looked;
}

describe('a sound path', () => {
	it('changes no sound part, breaks no rule, and proves its repair', () => {
		for (const callout of sample) {
			const { state } = soundPath(callout, table);
			const measures = of(callout, state);
			const wrong = state.remedies.filter(({ cured, remedy }) => !cured && pack.remedies.find(({ id }) => id === remedy)?.kind === 'fit');
			expect(measures.soundParts).toBe(wrong.length);
			expect(measures).toMatchObject({ cured: true, proved: true, breaches: 0, dangerous: 0, minutes: state.minutes, spent: state.spent });
			expect(measures.stated.length).toBe(state.remedies.length);
			expect(measures.area).toBe(callout.fault!.area);
		}
	});
});

describe('sound parts changed', () => {
	it('are parts that were not the cure, and those fitted after it; remedies that are no part are none', () => {
		expect(fitted.length).toBeGreaterThan(3);
		for (const callout of fitted.slice(0, 4)) {
			const first = repair(callout, start(), soundPart(callout));
			const cured = repair(callout, first, curing(callout));
			expect(of(callout, cured).soundParts).toBe(1);
			expect(of(callout, repair(callout, start(), curing(callout))).soundParts).toBe(0);
			expect(of(callout, repair(callout, repair(callout, start(), curing(callout)), soundPart(callout))).soundParts).toBe(1);
			const other = pack.remedies.find(({ id, kind }) => kind === 'adjust' && !callout.fault!.cured.includes(id))!;
			expect(of(callout, repair(callout, start(), other)).soundParts).toBe(0);
		}
	});
});

describe('a fault that two remedies cure', () => {
	it('leaves nothing to cure for the second: a part then fitted was sound', () => {
		const isPart = (id: string) => pack.remedies.find((remedy) => remedy.id === id)!.kind === 'fit';
		const fault = pack.faults.find(({ cured }) => cured.some(isPart) && !cured.every(isPart))!;
		const callout = makeCallout(pack, 80_000, fault.id);
		const remedies = fault.cured.map((id) => pack.remedies.find((remedy) => remedy.id === id)!);
		const part = remedies.find(({ kind }) => kind === 'fit')!;
		const other = remedies.find(({ kind }) => kind !== 'fit')!;
		expect(of(callout, repair(callout, start(), part)).soundParts).toBe(0);
		expect(of(callout, repair(callout, repair(callout, start(), other), part)).soundParts).toBe(1);
	});
});

describe('the complaint verified first', () => {
	it('is not by the same check under a demand that nobody complained of', () => {
		const elsewhere = callouts(60, 90_000).flatMap((callout) => {
			const { proves, when } = callout.complaint;
			const asked = [proves.demand, ...when.map(({ demand }) => demand)];
			const check = pack.checks.find(({ id }) => id === proves.checks[0])!;
			const other = check.under.find((demand) => !asked.includes(demand));
			return other ? [{ callout, check: check.id, demand: other }] : [];
		});
		const [{ callout, check, demand }] = elsewhere;
		const set = act(callout, start(), { kind: 'demand', demand });
		if ('refused' in set) throw new Error(set.refused);
		const looked = act(callout, set, { kind: 'check', check });
		if ('refused' in looked) throw new Error(looked.refused);
		expect(of(callout, looked).verifiedFirst).toBeNull();
		expect(of(callout, seen(callout)).verifiedFirst).toBe(true);
	});

	it('is by running the tap complained of and feeling it cold, where nothing hot comes from any tap', () => {
		const [callout] = callouts(60, 90_000).filter(({ complaint }) => complaint.id === 'no-hot-water');
		const run = act(callout, start(), { kind: 'demand', demand: 'tap' });
		if ('refused' in run) throw new Error(run.refused);
		expect(run.readings.map(({ check, text }) => [check, text])).toContainEqual(['notice-tap', 'cold']);
		expect(of(callout, run).verifiedFirst).toBe(true);
		expect(of(callout, repair(callout, run, curing(callout))).verifiedFirst).toBe(true);
		// What is noticed with nothing run tells nothing of it.
		const idle = act(callout, start(), { kind: 'demand', demand: 'none' });
		if (!('refused' in idle)) expect(of(callout, repair(callout, idle, curing(callout))).verifiedFirst).toBe(false);
		expect(of(callout, repair(callout, start(), curing(callout))).verifiedFirst).toBe(false);
	});

	it('is when it was seen under its demand before any work', () => {
		for (const callout of fitted) {
			expect(of(callout, seen(callout)).verifiedFirst).toBe(true);
			expect(of(callout, repair(callout, seen(callout), curing(callout))).verifiedFirst).toBe(true);
		}
	});

	it('is not when work came first, though the readings of proof come after; and cannot be told when nothing was done', () => {
		for (const callout of fitted) {
			expect(of(callout, repair(callout, start(), curing(callout))).verifiedFirst).toBe(false);
			expect(of(callout, start()).verifiedFirst).toBeNull();
		}
	});
});

describe('a repair proved', () => {
	it('is one run again under the demand complained of after the last work; where nothing was cured there is none', () => {
		const [callout] = fitted;
		const unproved = follow(callout, start(), planRemedy(pack, start(), curing(callout)));
		expect(of(callout, unproved)).toMatchObject({ cured: true, proved: false });
		expect(of(callout, repair(callout, start(), curing(callout)))).toMatchObject({ cured: true, proved: true });
		expect(of(callout, leave(callout, start()))).toMatchObject({ cured: false, proved: null });
	});
});

describe('harmful acts', () => {
	it('are every rule breached, the dangerous ones told apart', () => {
		const [callout] = sample;
		const plan = planRemedy(
			pack,
			start(),
			pack.remedies.find(({ id }) => id === 'fit-fan')!
		)!;
		const open = follow(callout, start(), { ...plan, actions: [{ kind: 'step', step: 'open-casing' }] });
		const stopped = act(callout, open, { kind: 'remedy', remedy: 'fit-fan', sure: 'guess' });
		if ('refused' in stopped) throw new Error(stopped.refused);
		const { breaches, dangerous } = of(callout, stopped);
		expect(dangerous).toBeGreaterThan(0);
		expect(breaches).toBeGreaterThanOrEqual(dangerous);
		const left = act(callout, open, { kind: 'leave', told: [] });
		if ('refused' in left) throw new Error(left.refused);
		const rules = left.events.at(-1)!.breaches;
		expect(rules).toContain('left-open');
		const are = (id: string) => pack.rules.safety.find((rule) => rule.id === id)!.dangerous;
		expect(of(callout, left)).toMatchObject({ breaches: rules.length, dangerous: rules.filter(are).length });
	});
});

describe('the rest', () => {
	it('is what was stated at each remedy with whether it cured', () => {
		const [callout] = fitted;
		const done = leave(callout, repair(callout, repair(callout, start(), soundPart(callout), 'guess'), curing(callout), 'proved'));
		expect(of(callout, done).stated).toEqual([
			{ sure: 'guess', cured: false },
			{ sure: 'proved', cured: true }
		]);
	});
});
