/** What somebody who has just been through a refresher should look out for at the door tomorrow. */
import type { Recall } from '#shared/marking/recall.ts';
import type { Differences } from './differences.ts';

/** How one callout of the refresher went. */
export interface Went {
	readonly recall: Recall;
	/** The fault that was hidden in it, and what it does to the appliance. */
	readonly fault: string;
	readonly because: string;
}

const most = 6;
/** However the callouts went, so many of the differences that mislead most are named. */
const leastDifferences = 3;

/** What was not shown soundly comes first, the worst before the rest; then what would mislead most. Each is said once. */
export function lookOutFor({ list }: Differences, went: readonly Went[]): string[] {
	const weak = (['lost', 'laboured'] as const).flatMap((recall) => went.filter((one) => one.recall === recall).map(saidOf));
	const lessons = [...new Set(weak)].slice(0, most - leastDifferences);
	return [
		...lessons,
		...list
			.filter(({ side }) => side !== 'known')
			.slice(0, most - lessons.length)
			.map(({ says }) => says)
	];
}

const saidOf = ({ fault, because }: Went): string => `${fault.replace(/\.$/, '')}: ${because}`;
