/** What the log makes of each skill: kept beside it, continued by each new line, made again wherever it was made by another scheduler. */
import type { Memory, Scheduler } from '#shared/review/memory/memory.ts';
import { defaultScheduler, memoryAfter, remember } from '#shared/review/memory/schedule.ts';
import type { Review, SkillId } from '#shared/review/skill.ts';
import { fitsIn } from '../database/fits.ts';
import type { Database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import type { ReviewRow } from '../database/schema.ts';

export type Memories = ReturnType<typeof memoriesIn>;

/** A line of the log as the core takes it. */
export const reviewOf = ({ skill, at, recall, minutes }: ReviewRow): Review => ({ skill, at: at.getTime(), recall, minutes });

export function memoriesIn(db: Database) {
	const log = reviewLogIn(db);
	const fits = fitsIn(db);

	/** The scheduler of a learner: their zone and retention, and the parameters that are in force for them. Null: nobody in particular. */
	function schedulerOf(learnerId: string | null): Scheduler {
		const settings = learnerId === null ? undefined : log.settings(learnerId);
		const scheduler = { ...defaultScheduler, ...settings };
		const fit = (learnerId === null ? undefined : fits.kept(learnerId, scheduler.version)) ?? fits.kept(null, scheduler.version);
		return fit ? { ...scheduler, parameters: JSON.parse(fit.parameters) as number[] } : scheduler;
	}

	function keep(learner: string, scheduler: Scheduler, memory: Memory): void {
		log.keepMemory({
			learner,
			skill: memory.skill,
			scheduler: keyOf(scheduler),
			content: JSON.stringify(memory),
			due: new Date(memory.due)
		});
	}

	/** Whether what is kept was made by this scheduler from as many lines as the log has. */
	function isCurrent(learner: string, scheduler: Scheduler, kept: ReturnType<typeof log.memories>, lines: number): boolean {
		const taken = kept.reduce((sum, { content }) => sum + (JSON.parse(content) as Memory).reviews, 0);
		return taken === lines && kept.every((row) => row.scheduler === keyOf(scheduler));
	}

	function rebuildAll(learner: string, scheduler: Scheduler): Map<SkillId, Memory> {
		// One line cannot come between the reading of the log and the keeping of what was made of it.
		return db.transaction(
			() => {
				const made = remember(log.all(learner).map(reviewOf), scheduler);
				log.forgetMemories(learner);
				for (const memory of made.values()) keep(learner, scheduler, memory);
				return made;
			},
			{ behavior: 'immediate' }
		);
	}

	return {
		schedulerOf,

		/** The learner's memories by skill. */
		of(learnerId: string | null): ReadonlyMap<SkillId, Memory> {
			if (learnerId === null) return new Map();
			const scheduler = schedulerOf(learnerId);
			const kept = log.memories(learnerId);
			if (!isCurrent(learnerId, scheduler, kept, log.count(learnerId))) return rebuildAll(learnerId, scheduler);
			return new Map(kept.map(({ skill, content }) => [skill, JSON.parse(content) as Memory]));
		},

		/** Takes in a line that has just been added to the log. To be called within the transaction that added it. */
		take(learnerId: string, review: Review): void {
			const scheduler = schedulerOf(learnerId);
			const kept = log.memories(learnerId);
			if (!isCurrent(learnerId, scheduler, kept, log.count(learnerId) - 1)) return void rebuildAll(learnerId, scheduler);
			const row = kept.find(({ skill }) => skill === review.skill);
			const before = row ? (JSON.parse(row.content) as Memory) : null;
			// A callout settled late is older than what has been shown since.
			const isNext = before === null || before.last <= review.at;
			const memory = isNext
				? memoryAfter(before, review, scheduler)
				: remember(log.ofSkill(learnerId, review.skill).map(reviewOf), scheduler).get(review.skill)!;
			keep(learnerId, scheduler, memory);
		}
	};
}

/** By which what was made by one scheduler is told from what was made by another. */
function keyOf({ version, parameters, retention, zone }: Scheduler): string {
	return JSON.stringify([version, parameters, retention, zone]);
}
