/** A complaint and a reading that a sound appliance gives too prove nothing, however likely the complaint makes a fault. */
import { describe, expect, it } from 'vitest';
import { bandOf } from '#shared/callout/take-check.ts';
import { columnKey, tableFacts } from '#shared/diagnosis/column-facts.ts';
import type { Evidence } from '#shared/diagnosis/likelihood.ts';
import { isShown } from '#shared/diagnosis/proof.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { mark } from '#shared/marking/mark.ts';
import type { Demand } from '#shared/appliance/model.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { stock, stockNamed } from '../../sampled.ts';

const reading = (check: string, demand: Demand, value: number): Evidence => ({ check, demand, value, after: [] });

/** A reading by the word of its band. */
async function showsBy(family: string, fault: string, remedy: string, said: readonly (readonly [string, Demand, string])[]) {
	const { pack } = stockNamed(family);
	const table = await evidenceFor(pack);
	const faults = pack.faults.map(({ id }) => (id === fault ? 1 : 0));
	const readings = said.map(([id, demand, word]) => {
		const value = pack.checks.find((check) => check.id === id)!.words!.findIndex((band) => band.word === word);
		expect(value, `${id}: ${word}`).toBeGreaterThanOrEqual(0);
		return reading(id, demand, value);
	});
	return isShown(pack, table, faults, readings, remedy);
}

/** The words of a check, in order: under a demand that tries the fault, what most machines with it say and what sound ones say. */
async function wordOf(family: string, fault: string, check: string, demand: Demand) {
	const { pack } = stockNamed(family);
	const table = await evidenceFor(pack);
	const facts = tableFacts(pack, table);
	const of = facts.byKey.get(columnKey(check, demand))!;
	const at = pack.faults.findIndex(({ id }) => id === fault);
	const middle = (values: Float32Array) => of.check.words![bandOf(of.check, values.toSorted()[values.length >> 1])].word;
	return { faulty: middle(of.column.values.subarray(facts.from[at], facts.to[at])), sound: middle(of.column.healthy.values) };
}

describe('a stiff flow switch', () => {
	const by = (said: Parameters<typeof showsBy>[3]) => showsBy('combi-tap-coil', 'flow-switch-stiff', 'clean-flow-switch', said);
	it('is not shown by the rod in with the tap open, as a sound one reads, and is by the rod out with the tap part open', async () => {
		const word = await wordOf('combi-tap-coil', 'flow-switch-stiff', 'look-flow-switch', 'part-tap');
		expect(word.faulty).not.toBe(word.sound);
		expect(await by([['look-flow-switch', 'tap', word.sound]])).toBe(false);
		expect(await by([['look-flow-switch', 'none', word.faulty]])).toBe(false);
		expect(await by([['look-flow-switch', 'part-tap', word.faulty]])).toBe(true);
	});
});

describe('a weak pump', () => {
	const by = (said: Parameters<typeof showsBy>[3]) => showsBy('combi-tap-coil', 'pump-weak', 'fit-pump', said);
	it('is not shown by one listen, misjudged one time in ten, nor by two; it is with its spindle watched', async () => {
		const heard = (await wordOf('combi-tap-coil', 'pump-weak', 'listen-pump', 'heating')).faulty;
		const seen = (await wordOf('combi-tap-coil', 'pump-weak', 'stop-pump-spindle', 'heating')).faulty;
		expect(await by([['listen-pump', 'heating', heard]])).toBe(false);
		expect(
			await by([
				['listen-pump', 'heating', heard],
				['listen-pump', 'heating', heard]
			])
		).toBe(false);
		expect(
			await by([
				['listen-pump', 'heating', heard],
				['stop-pump-spindle', 'heating', seen]
			])
		).toBe(true);
	});
});

describe.each(stock)('$id', ({ pack, faults, calloutsWith }) => {
	it('takes hardly any sound appliance for shown, by whatever check that can show a fault', async () => {
		const table = await evidenceFor(pack);
		const { byKey } = tableFacts(pack, table);
		for (const fault of pack.faults) {
			const certain = pack.faults.map((one) => (one === fault ? 1 : 0));
			for (const { column, check, gauge } of byKey.values()) {
				// What reads the same with the fault as without it is told by what it is not.
				if (!fault.shown.includes(check.id) || fault.area === 'electrical') continue;
				const taken = column.healthy.values.filter((_, n) => n % 5 === 0);
				const shown = taken.filter((value) => {
					const says = check.words ? bandOf(check, value) : value >= gauge.over ? Infinity : value;
					return isShown(pack, table, certain, [reading(check.id, column.demand, says)], fault.cured[0]);
				});
				expect(shown.length / taken.length, `${fault.id}: ${check.id} ${column.demand}`).toBeLessThan(0.05);
			}
		}
	});

	it('is proved by the sound path whatever the fault, with full marks for the part and for saying so', async () => {
		const table = await evidenceFor(pack);
		const short: string[] = [];
		let paths = 0;
		for (const fault of faults.slice(1)) {
			for (const callout of calloutsWith(fault, 2)) {
				const sheet = mark(callout, soundPath(callout, table).state, table);
				paths++;
				const { parts, evidence } = sheet.byCriterion;
				if (parts.got < parts.outOf || evidence.got < evidence.outOf || sheet.total < 95)
					short.push(`${fault} ${callout.seed}: ${sheet.total}, ${sheet.lines.filter(({ lost }) => lost > 0).map(({ says }) => says)}`);
			}
		}
		expect(paths).toBeGreaterThan(50);
		expect(short.length, short.join('\n')).toBeLessThan(0.1 * paths);
	}, 240_000);
});
