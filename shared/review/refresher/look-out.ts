/** What somebody who has just been through a refresher should look out for at the door tomorrow. */
import type { Recall } from '#shared/marking/recall.ts';
import type { SafetyRule } from '#shared/scenario/schema.ts';
import type { Differences } from './differences.ts';

/** How one callout of the refresher went. */
export interface Went {
	readonly recall: Recall;
	/** The fault that was hidden in it, and what it does to the appliance. */
	readonly fault: string;
	readonly because: string;
	/** Rules of safety that were breached in it. */
	readonly breaches: readonly Pick<SafetyRule, 'says' | 'why' | 'dangerous'>[];
}

type Breach = Went['breaches'][number];

const most = 6;
/** However the callouts went, so many of the differences that mislead most are named. */
const leastDifferences = 3;

/** What was unsafe comes first; then what was not shown soundly, the worst before the rest; then what would mislead most. Each is said once. */
export function lookOutFor({ list }: Differences, went: readonly Went[]): string[] {
	const weak = (['lost', 'laboured'] as const).flatMap((recall) => went.filter((one) => one.recall === recall).map(saidOf));
	const breached = new Set(
		went
			.flatMap(({ breaches }) => breaches)
			.toSorted(dangerousFirst)
			.map(inItsWords)
	);
	const lessons = [...new Set([...breached, ...weak])].slice(0, Math.max(most - leastDifferences, breached.size));
	return [
		...lessons,
		...list
			.filter(({ side }) => side !== 'known')
			.slice(0, Math.max(0, most - lessons.length))
			.map(({ says }) => says)
	];
}

const dangerousFirst = (a: Breach, b: Breach): number => Number(b.dangerous) - Number(a.dangerous);
const inItsWords = ({ says, why, dangerous }: Breach): string => `${dangerous ? 'Dangerous' : 'Unsafe'}. ${says} ${why}`;

const saidOf = ({ fault, because }: Went): string => `${fault.replace(/\.$/, '')}: ${because}`;
