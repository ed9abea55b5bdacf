import { expect, test } from 'vitest';
import { act, start } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { observe } from '#shared/quantity/instrument.ts';
import { chance } from '#shared/quantity/random.ts';
import { noneOfThem } from '#shared/review/drills/evidence/answers.ts';
import { instrumentOf, rangeFor } from '#shared/scenario/rotary.ts';
import { combi } from '../../../../sampled.ts';
import { choiceIds, drillsOf, generator, givenValue, judgedOf, rightOf } from './drilled.ts';

const ground = { pack: combi, table: null };
const stepAt = (id: string) => combi.family.sequence.findIndex((step) => step.id === id);
const saidAt = (does: string) => combi.family.sequence.findIndex((step) => step.does === does);
const checkIn = (name: string) => combi.checks.find((check) => check.name === name)!;

test('an order is the order of the data, and what watches the whole run has no place in it', () => {
	for (const drill of drillsOf('sequence-order', ground, 150)) {
		const places = rightOf(drill).map(stepAt);
		expect(places).toEqual([...places].sort((a, b) => a - b));
		for (const place of places) expect(combi.family.sequence[place]!.throughout).not.toBe(true);
	}
});

test('one exchange of neighbours is laboured, anything further lost', () => {
	for (const drill of drillsOf('sequence-order', ground, 80)) {
		const right = rightOf(drill);
		for (let at = 0; at < right.length - 1; at++) {
			const swapped = [...right.slice(0, at), right[at + 1]!, right[at]!, ...right.slice(at + 2)];
			expect(judgedOf(drill, swapped)).toMatchObject({ right: false, recall: 'laboured' });
		}
		expect(judgedOf(drill, [...right].reverse()).recall).toBe('lost');
		expect(judgedOf(drill, [...right.slice(1), right[0]!]).recall).toBe('lost');
	}
});

test('what comes next is the next of the same demand, and what came before the one before', () => {
	for (const drill of drillsOf('sequence-what-comes-next', ground, 200)) {
		const at = saidAt(givenValue(drill.question, 'Just happened'));
		expect(stepAt(rightOf(drill)[0]!)).toBe(drill.question.asks.includes('before') ? at - 1 : at + 1);
	}
});

test('where it stopped, just what comes later cannot have happened, and what comes before must', () => {
	for (const drill of drillsOf('sequence-where-it-stopped', ground, 200)) {
		const at = saidAt(givenValue(drill.question, 'Got no further than'));
		const [right, asksOut] = [rightOf(drill), drill.question.asks.includes('cannot')];
		for (const id of choiceIds(drill.question).filter((one) => one !== noneOfThem.id))
			expect(right.includes(id)).toBe(stepAt(id) > at === asksOut);
	}
});

test('the leads go where the data has them, and no other pair offered reads the same', () => {
	for (const drill of drillsOf('terminals-for-check', ground, 150)) {
		const check = checkIn(givenValue(drill.question, 'Check'));
		const [right] = rightOf(drill);
		expect(right).toBe(check.terminals!.between.join('.'));
		for (const id of choiceIds(drill.question).filter((choice) => choice !== right)) {
			const pair = check.terminals!.others.find(({ between }) => between.join('.') === id)!;
			expect(pair.reads === check.reads && pair.times === 1 && pair.less === undefined).toBe(false);
		}
	}
});

test('only the right range shows the figure, and finely enough', () => {
	for (const drill of drillsOf('range-for-check', ground, 300)) {
		const check = checkIn(givenValue(drill.question, 'Check'));
		const own = instrumentOf(combi, check)!;
		const expected = Number(/[\d.]+/.exec(givenValue(drill.question, 'You expect'))![0]);
		const [right] = rightOf(drill);
		for (const id of choiceIds(drill.question)) {
			const range = rangeFor(combi, check, id)!;
			const { value } = observe(expected, { ...range, error: 0, errorShare: 0 }, chance(1, id));
			const isFine = range.resolution <= Math.max(own.resolution, 0.011 * expected);
			expect(range.measures === own.measures && Number.isFinite(value) && isFine).toBe(id === right);
		}
	}
});

test('the tool is the one of the data; others offered are used for nothing in that unit, or are the same tool set to measure something else', () => {
	for (const drill of drillsOf('tool-for-check', ground, 200)) {
		const check = checkIn(givenValue(drill.question, 'Check'));
		const [right] = rightOf(drill);
		expect(right).toBe(check.instrument);
		const toolNamed = (id: string | undefined) => combi.instruments.find((one) => one.id === id)!;
		const own = toolNamed(right);
		const isSameTool = (id: string) => own.tool !== undefined && toolNamed(id).tool === own.tool;
		const others = choiceIds(drill.question).filter((choice) => choice !== right);
		for (const id of others)
			expect(
				(isSameTool(id) && toolNamed(id).measures !== own.measures) ||
					!combi.checks.some((other) => other.instrument === id && other.unit === check.unit)
			).toBe(true);
		// Where the tool has other settings that measure something else, one of them at least is offered: the tool alone does not tell.
		const settings = combi.instruments.filter(
			({ id, measures }) =>
				id !== right && isSameTool(id) && combi.checks.some(({ instrument }) => instrument === id) && measures !== own.measures
		);
		if (settings.length > 0) expect(others.some(isSameTool)).toBe(true);
		if (own.measures === 'volts a.c.') expect(others).toContain(combi.instruments.find(({ measures }) => measures === 'volts d.c.')?.id);
	}
});

const callout = makeCallout(combi, 11);

/** The path played on a real callout; null once something is refused or stopped for safety. */
function played(actions: readonly Action[]): CalloutState | null {
	return actions.reduce<CalloutState | null>((state, action) => {
		const next = state && act(callout, state, action);
		return next && !('refused' in next) && next.events.at(-1)!.breaches.length === 0 ? next : null;
	}, start());
}

test('played on a callout, the steps named make the work safe and possible, and none of them can be left out', () => {
	for (const drill of drillsOf('isolate-before', ground, 200)) {
		const name = givenValue(drill.question, 'Work');
		const remedy = combi.remedies.find((one) => one.name === name);
		const check = combi.checks.find((one) => name === `${one.name}. ${one.how}`);
		const steps = combi.rules.steps.filter(({ id }) => rightOf(drill).includes(id));
		const [demand] = check?.under ?? ['none'];
		const work: Action[] = remedy
			? [{ kind: 'remedy', remedy: remedy.id, sure: 'guess' }]
			: [...(demand === 'none' ? [] : [{ kind: 'demand' as const, demand: demand! }]), { kind: 'check', check: check!.id }];
		const path = (left?: string): Action[] => [
			...steps.filter(({ id }) => id !== left).map(({ id }): Action => ({ kind: 'step', step: id })),
			...work
		];
		expect(played(path())).not.toBeNull();
		for (const { id } of steps) expect(played(path(id))).toBeNull();
	}
});

test('to leave out what would put somebody in danger is lost, though it is one slip', () => {
	let grave = 0;
	for (const drill of drillsOf('isolate-before', ground, 120)) {
		const right = rightOf(drill);
		for (const id of right.filter((one) => one !== noneOfThem.id)) {
			const others = right.filter((other) => other !== id);
			const judged = judgedOf(drill, others.length > 0 ? others : [noneOfThem.id]);
			const dangerous = combi.rules.safety.some((rule) => rule.dangerous && judged.misconception?.startsWith(rule.says));
			expect(judged.recall).toBe(dangerous || others.length === 0 ? 'lost' : 'laboured');
			if (dangerous) grave++;
		}
	}
	expect(grave).toBeGreaterThan(20);
});

test('a generator of these needs no evidence', () => {
	for (const id of ['sequence-order', 'terminals-for-check', 'isolate-before']) expect(generator(id).needs).toBe('family');
});
