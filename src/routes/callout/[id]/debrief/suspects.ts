/** What the picture and the table of suspicion show of a path. */
import type { Debrief, PathStep } from '#shared/marking/mark-sheet.ts';

/** What is believed from a minute on. */
export interface Moment extends Pick<PathStep, 'says' | 'suspicion' | 'entropyBits'> {
	readonly minute: number;
}

export interface Suspect {
	readonly id: string;
	readonly says: string;
	/** At each moment, 0 to 1. */
	readonly values: readonly number[];
}

/** What the complaint alone bore stands before the first step, at no minutes. */
export function momentsOf({ prior, path }: Pick<Debrief, 'prior' | 'path'>): Moment[] {
	const ends = path.map(({ says, minute, minutes, suspicion, entropyBits }) => ({
		says,
		minute: minute + minutes,
		suspicion,
		entropyBits
	}));
	return [{ says: 'The complaint alone', minute: 0, ...prior }, ...ends];
}

/** The faults most suspected at any time, the fault itself among them; at most `most`, the finally likeliest first. */
export function suspectsOf(
	path: readonly Pick<PathStep, 'suspicion'>[],
	truth: string,
	nameOf: (id: string) => string,
	most = 7
): Suspect[] {
	const ids = new Set([truth, ...path.flatMap((step) => Object.keys(step.suspicion))]);
	const worth = 0.05;
	const all = [...ids]
		.map((id) => ({ id, says: nameOf(id), values: path.map((step) => step.suspicion[id] ?? 0) }))
		.filter(({ id, values }) => id === truth || values.some((share) => share >= worth));
	const peak = (s: Suspect) => (s.id === truth ? 2 : Math.max(0, ...s.values));
	const last = (s: Suspect) => (s.id === truth ? 2 : (s.values.at(-1) ?? 0));
	const shown = all.toSorted((a, b) => peak(b) - peak(a)).slice(0, most);
	return shown.toSorted((a, b) => last(b) - last(a) || peak(b) - peak(a));
}

/** The three likeliest faults after one step, in words. */
export function leading(step: Pick<PathStep, 'suspicion'>, nameOf: (id: string) => string): string {
	const top = Object.entries(step.suspicion)
		.toSorted(([, a], [, b]) => b - a)
		.slice(0, 3)
		.filter(([, share]) => share >= 0.02);
	return top.map(([id, share]) => `${nameOf(id)} ${Math.round(share * 100)} %`).join('; ');
}
