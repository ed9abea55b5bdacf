/** How the counts of a blueprint are named in a form, and what a paper of such counts is thought to take. */

/** Any of a family's areas. */
export const anyArea = 'any';

export const calloutField = (family: string, area: string | null): string => `callout/${family}/${area ?? anyArea}`;
export const drillField = (drill: string): string => `drill/${drill}`;

/** What a form of a paper says, as it was written. */
export type PaperFields = Readonly<Record<string, string>>;

/** Paper is set in steps of so many minutes, rounded up: a judgement of ours. */
const stepMinutes = 5;

/**
 * Minutes suggested for a paper: what its parts are thought to take in practice, rounded up.
 * @param minutesOf  of each part, by the name of its field [min]
 * @returns 0 for a paper with nothing in it
 */
export function suggestedMinutes(minutesOf: Readonly<Record<string, number>>, fields: PaperFields): number {
	const sum = Object.entries(minutesOf).reduce((minutes, [name, each]) => minutes + each * countIn(fields, name), 0);
	return Math.ceil(sum / stepMinutes) * stepMinutes;
}

/** What is no number counts nothing here; that it is none is said when it is sent. */
const countIn = (fields: PaperFields, name: string): number => (/^\d{1,2}$/.test(fields[name] ?? '') ? Number(fields[name]) : 0);
