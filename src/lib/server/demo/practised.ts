/** Months of practice of somebody invented: what a log would hold, by the memory model that the scheduler uses and luck from a seed. */
import type { Recall } from '#shared/marking/recall.ts';
import { chance } from '#shared/quantity/random.ts';
import type { Memory } from '#shared/review/memory/memory.ts';
import { defaultScheduler, isDue, memoryAfter, recallAt } from '#shared/review/memory/schedule.ts';
import type { Review, Skill } from '#shared/review/skill.ts';

const dayMs = 86_400_000;
/** Invented, as all figures here: how often somebody sits down of an evening, how many skills they go through, how well they begin. */
const evenings = { least: 0.2, most: 0.6 };
const most = { skills: 5, fresh: 1 };
const firstKept = 0.6;
/** By how much somebody's success falls short in an area in which their cohort is weak. */
const weakness = 0.55;

export interface Practiser {
	readonly seed: number;
	readonly name: string;
	/** Days before `now` on which practice began. */
	readonly days: number;
	/** Ids of skills in which they succeed less often. */
	readonly weak: ReadonlySet<string>;
}

/**
 * @param skills in the order in which they are begun
 * @param now    [ms since 1970]
 * @returns in order of time
 */
export function practisedLog({ seed, name, days, weak }: Practiser, skills: readonly Skill[], now: number): Review[] {
	const draw = chance(seed, 'invented practice', name);
	const often = draw.between(evenings.least, evenings.most);
	const ability = draw.between(0.75, 1.05);
	const memories = new Map<string, Memory>();
	const log: Review[] = [];
	for (let day = days; day > 0; day--) {
		if (draw.uniform() > often) continue;
		let at = now - day * dayMs + draw.whole(0, 90) * 60_000;
		const due = [...memories.values()]
			.filter((memory) => isDue(memory, at))
			.sort((a, b) => recallAt(a, at, defaultScheduler) - recallAt(b, at, defaultScheduler));
		const fresh = skills.filter(({ id }) => !memories.has(id)).slice(0, due.length < most.skills ? most.fresh : 0);
		const tonight = [...due.slice(0, most.skills).map(({ skill }) => skill), ...fresh.map(({ id }) => id)];
		for (const id of tonight) {
			const skill = skills.find((one) => one.id === id)!;
			const before = memories.get(id) ?? null;
			const chanceOf = (before ? recallAt(before, at, defaultScheduler) : firstKept) * ability * (weak.has(id) ? weakness : 1);
			const recall: Recall = draw.uniform() < chanceOf ? draw.pick(['laboured', 'sound', 'sound', 'fluent'] as const) : 'lost';
			const minutes = Math.round(skill.minutes * draw.between(0.8, 1.6) * 10) / 10;
			at += minutes * 60_000;
			const review: Review = { skill: id, at, recall, minutes };
			memories.set(id, memoryAfter(before, review, defaultScheduler));
			log.push(review);
		}
	}
	return log;
}
