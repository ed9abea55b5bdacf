/**
 * How often coaching asks for a prediction. It fades with how well the skills of the whole family are held: the area of the hidden fault
 * must not be told by how often one is asked.
 */
import type { Memory } from '../memory/memory.ts';
import { fading } from './thresholds.ts';

/** Coaching asks before one check in this many; null where it asks no more. */
export type Every = (typeof fading)[number]['every'] | null;

/**
 * @param stabilities  of the skills begun in the family [days], each > 0
 * @returns 1 where none is begun
 */
export function askEvery(stabilities: readonly number[]): Every {
	if (stabilities.length === 0) return 1;
	const mean = stabilities.reduce((sum, stability) => sum + stability, 0) / stabilities.length;
	return fading.find(({ below }) => mean < below)?.every ?? null;
}

/** Stabilities of the skills begun in a family, of all its areas [days]. */
export function stabilitiesIn(family: string, memories: readonly Pick<Memory, 'skill' | 'stability'>[]): number[] {
	return memories.filter(({ skill }) => skill.startsWith(`${family}/`)).map(({ stability }) => stability);
}

/** @param checksTaken  in this visit so far, predicted or not */
export function asksNow(every: Every, checksTaken: number): boolean {
	return every !== null && checksTaken % every === 0;
}

/** How often it asks, as the learner is told. */
export function askingInWords(every: Every): string {
	if (every === null) return 'Coaching asks no more here: you hold the skills of this family. You can still predict.';
	const which = { 1: 'every check', 2: 'every second check', 4: 'every fourth check' };
	return `Coaching asks before ${which[every]} now.`;
}
