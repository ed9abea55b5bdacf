/**
 * Fairness on worked example A (our own; its figures computed by brute force and dynamic programming, see tests/published/troubleshooting):
 * the optimum costs 32.40; the good check first loses 0.0875 of it, fitting the likeliest part first loses 17.10, even where it is the fault.
 */
import { describe, expect, it } from 'vitest';
import type { Case } from '#shared/marking/bill.ts';
import { economyLines } from '#shared/marking/economy.ts';
import { partLines } from '#shared/marking/parts.ts';
import { pack } from './walk.ts';

const optimum = 32.4;
const rules = pack.rules;
const smallPack = {
	rules,
	checks: [],
	family: { demands: [] },
	parts: [{ id: 'c', name: 'Part c' }],
	faults: [{ id: 'c', cured: ['fit-c'] }],
	remedies: [{ id: 'fit-c', part: 'c', kind: 'fit', disturbs: [] }]
};

const aCheck = { action: { kind: 'check' }, readings: [{ event: -1, check: 'look-c' }] };

/** One event that loses this much, at this suspicion of the part, shown by what was read before or not. */
function caseOf(regret: number, suspicion = 0.4, cured = true, isShown = true): Case {
	const shown = new Set(isShown ? ['fit-c'] : []);
	const event = {
		index: 0,
		action: { kind: 'remedy', remedy: 'fit-c', sure: 'guess' },
		minute: 0,
		minutes: 40,
		spent: 40,
		breaches: [],
		readings: [],
		says: []
	};
	return {
		callout: { pack: smallPack },
		state: { events: [event], remedies: [{ event: 0, remedy: 'fit-c', sure: 'guess', cured }], cured: true },
		path: {
			regret,
			soundCost: optimum,
			events: [{ event, regret, best: null, before: { remedies: Float64Array.of(suspicion) }, shown: { before: shown, after: shown } }]
		}
	} as unknown as Case;
}

/** The same with a check taken before it. */
function afterACheck({ state, path, ...one }: Case): Case {
	const [event] = state.events;
	const [judged] = path.events;
	return {
		...one,
		state: { ...state, events: [aCheck, event], remedies: state.remedies.map((done) => ({ ...done, event: 1 })) },
		path: { ...path, events: [judged, judged] }
	} as unknown as Case;
}

const lost = (lines: readonly { lost: number }[]) => lines.reduce((sum, line) => sum + line.lost, 0);

describe('economy', () => {
	it('takes nothing for the check that loses 0.27 % of the optimum', () => {
		expect(
			lost(economyLines({ ...caseOf(0.0875), state: { events: [aCheck], remedies: [], cured: true } as unknown as Case['state'] }))
		).toBe(0);
	});

	it('takes all where nothing was looked at, where nothing was cured, and where the visit was stopped', () => {
		const of = (state: object) => lost(economyLines({ ...caseOf(0), state: { remedies: [], ...state } as unknown as Case['state'] }));
		expect(of({ events: [], cured: true })).toBe(rules.marks.economy);
		expect(of({ events: [aCheck], cured: false })).toBe(rules.marks.economy);
		expect(of({ events: [aCheck], cured: true, ended: 'stopped' })).toBe(rules.marks.economy);
	});

	it('takes more the more is lost, up to all of it', () => {
		const state = { events: [aCheck], remedies: [], cured: true } as unknown as Case['state'];
		const share = (regret: number) => lost(economyLines({ ...caseOf(0), state, path: { regret, soundCost: optimum, events: [] } }));
		const regrets = [0.0875, 1.1, 3.9, 13.05, 17.1, 60, 600];
		for (let i = 1; i < regrets.length; i++) expect(share(regrets[i])).toBeGreaterThanOrEqual(share(regrets[i - 1]));
		expect(share(17.1)).toBeGreaterThan(2);
		expect(share(600)).toBe(rules.marks.economy);
	});
});

describe('parts', () => {
	it('take marks for fitting the likeliest at 40 % where a check was better, though it was the fault', () => {
		const lucky = lost(partLines(caseOf(17.1)));
		expect(lucky).toBeGreaterThan(5);
		expect(lost(partLines(caseOf(17.1, 0.1)))).toBeGreaterThan(lucky);
	});

	it('keep full marks for a part that was proved, and for the best action there was', () => {
		expect(lost(partLines(caseOf(17.1, 0.9)))).toBe(0);
		expect(lost(partLines(caseOf(0)))).toBe(0);
	});

	it('take marks for the right part, however likely, before anything read shows it', () => {
		expect(lost(partLines(afterACheck(caseOf(0, 0.99, true, false))))).toBe(rules.weighing.luckyPart.likely);
	});

	it('take as for a guess where it was fitted on the complaint alone, however likely that made it', () => {
		expect(lost(partLines(caseOf(0, 0.99, true, false)))).toBe(rules.weighing.luckyPart.guessed);
	});

	it('take little for a sound part that the evidence justified, and much for a guess', () => {
		const justified = lost(partLines(caseOf(0, 0.4, false)));
		const guessed = lost(partLines(caseOf(17.1, 0.1, false)));
		expect(justified).toBeGreaterThan(0);
		expect(justified).toBeLessThan(guessed / 3);
	});
});
