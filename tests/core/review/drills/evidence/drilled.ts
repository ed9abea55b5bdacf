/** Drills made for tests, and what can be read back from their questions alone. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Evidence } from '#shared/diagnosis/likelihood.ts';
import { noneOfThem } from '#shared/review/drills/evidence/answers.ts';
import { evidenceGenerators } from '#shared/review/drills/evidence/index.ts';
import type { Drill, Generator, Ground, Judged, Question } from '#shared/review/drills/drill.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check, Complaint } from '#shared/scenario/schema.ts';

export function generator(id: string): Generator {
	const found = evidenceGenerators.find((one) => one.id === id);
	if (!found) throw new Error(`no generator is named ${id}`);
	return found;
}

export const drillsOf = (id: string, ground: Ground, seeds: number): Drill[] =>
	Array.from({ length: seeds }, (_, seed) => generator(id).make(ground, seed));

export function judgedOf(drill: Drill, chosen: readonly string[], seconds = 5): Judged {
	const judged = drill.judge({ chosen }, seconds);
	if ('refused' in judged) throw new Error(judged.refused);
	return judged;
}

export function choiceIds({ asking }: Question): string[] {
	if (asking.kind === 'figure') throw new Error('this drill has no choices');
	return asking.choices.map(({ id }) => id);
}

/** Every answer that could be given, found without knowing which is right. */
export function answersTo(question: Question): string[][] {
	const ids = choiceIds(question);
	if (question.asking.kind === 'one') return ids.map((id) => [id]);
	if (question.asking.kind === 'order') return orders(ids);
	// That none is right is a choice of its own, and stands alone.
	const others = ids.filter((id) => id !== noneOfThem.id);
	const some = Array.from({ length: 2 ** others.length - 1 }, (_, mask) => others.filter((_id, bit) => ((mask + 1) >> bit) & 1));
	return [[noneOfThem.id], ...some];
}

function orders(ids: readonly string[]): string[][] {
	if (ids.length < 2) return [[...ids]];
	return ids.flatMap((id) => orders(ids.filter((other) => other !== id)).map((rest) => [id, ...rest]));
}

/** The one answer that is judged right. */
export function rightOf(drill: Drill): string[] {
	const right = answersTo(drill.question).filter((chosen) => judgedOf(drill, chosen).right);
	if (right.length !== 1) throw new Error(`${right.length} answers are right to "${drill.question.asks}"`);
	return right[0]!;
}

export function givenValue({ given }: Question, name: string): string {
	const found = given.find((line) => line.name === name);
	if (!found) throw new Error(`the question does not give "${name}"`);
	return found.value;
}

/** The check, demand and reading of a question about one reading. */
export function readingOf(pack: Pack, question: Question): { check: Check; demand: Demand; value: number } {
	const check = pack.checks.find(({ name }) => name === givenValue(question, 'Check'))!;
	const demand = pack.family.demands.find(({ name }) => name === givenValue(question, 'Demand'))!.id;
	return { check, demand, value: valueOf(check, givenValue(question, 'Reading')) };
}

/** What a text stands for: the number of a band of words, a figure, or the end of the range. */
export function valueOf(check: Check, text: string): number {
	const band = check.words?.findIndex(({ word }) => word === text) ?? -1;
	if (check.words) return band;
	const value = Number(text.split(' ')[0]);
	return Number.isNaN(value) ? Infinity : value;
}

/** Index of the fault that a question says is suspected. */
export function suspectIn(pack: Pack, { asks }: Question): number {
	return pack.faults.findIndex(({ says }) => asks.includes(`"${says}"`));
}

export interface Told {
	readonly complaint: Complaint;
	readonly readings: readonly (Evidence & { readonly of: Check })[];
}

/** The complaint and the readings of a question about a visit, in the order in which they were taken. */
export function visitIn(pack: Pack, question: Question): Told {
	const says = givenValue(question, 'The customer says');
	const complaint = pack.complaints.find((one) => one.says.includes(says))!;
	const { demand } = complaint.proves;
	const readings = question.given.flatMap(({ name, value }): Told['readings'][number][] => {
		if (name.startsWith('Noticed (')) {
			return value.split('; ').map((one) => {
				const of = pack.checks.find((check) => one.startsWith(`${check.name}: `))!;
				return { of, check: of.id, demand, value: valueOf(of, one.slice(of.name.length + 2)), after: [] };
			});
		}
		for (const of of pack.checks) {
			for (const under of of.under) {
				const short = pack.family.demands.find(({ id }) => id === under)!.short;
				if (name === `${of.name} (${short})` || (of.way === 'ask' && name === of.name))
					return [{ of, check: of.id, demand: under, value: valueOf(of, value), after: [] }];
			}
		}
		return [];
	});
	return { complaint, readings };
}
