/** A form that was turned away: which one, why, and what was written in it. */
export interface Refused {
	readonly form: string;
	readonly says: string;
	readonly written: Readonly<Record<string, string>>;
}

/** What was written in a form of this name before it was turned away; empty where it was another, or none. */
export const writtenIn = (refused: Refused | null, form: string): Readonly<Record<string, string>> =>
	refused?.form === form ? refused.written : {};
export const saidOf = (refused: Refused | null, form: string): string | null => (refused?.form === form ? refused.says : null);
