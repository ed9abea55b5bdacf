/** What a learner's practice has come to, for the page of it and for its files. */
import {
	calibration,
	figuresOverTime,
	minutesByWeek,
	type Calibrated,
	type Dated,
	type Figures,
	type Week
} from '#shared/review/progress.ts';
import { skillsMap, type SkillsMap } from '#shared/review/skills-map.ts';
import { attemptsIn } from '../database/attempts.ts';
import { database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { callouts } from '../callouts.ts';
import { reviewOf } from './memories.ts';
import { practice } from './practice.ts';

/** Callouts further back are left out: a judgement of ours, some months of practice. */
export const mostCallouts = 200;

export interface Progress {
	readonly map: SkillsMap;
	/** Short names by family id. */
	readonly families: ReadonlyMap<string, string>;
	readonly weeks: readonly Week[];
	/** One a callout, the earliest first. */
	readonly figures: readonly Figures[];
	readonly calibration: readonly Calibrated[];
	/** Ended callouts that this version cannot play again, which are in no figure. */
	readonly leftOut: number;
	readonly zone: string;
}

/** @param learnerId  null for a visitor who is no learner yet */
export function progressOf(learnerId: string | null, now = Date.now()): Progress {
	const { plans, memories } = practice();
	const scheduler = memories.schedulerOf(learnerId);
	const log = learnerId === null ? [] : reviewLogIn(database()).all(learnerId).map(reviewOf);
	const { worked, leftOut } = workedCallouts(learnerId);
	return {
		map: skillsMap([...plans.skills.values()], [...memories.of(learnerId).values()], now, scheduler),
		families: plans.families,
		weeks: minutesByWeek(log, now, scheduler.zone),
		figures: figuresOverTime(worked),
		calibration: calibration(worked),
		leftOut,
		zone: scheduler.zone
	};
}

/** How each ended callout was worked, the earliest first, and how many can no longer be told. */
export function workedCallouts(learnerId: string | null): { worked: Dated[]; leftOut: number } {
	if (learnerId === null) return { worked: [], leftOut: 0 };
	const ended = attemptsIn(database())
		.latest(learnerId, mostCallouts)
		.filter(({ ended }) => ended !== null);
	const worked = ended.flatMap(({ id, ended }): Dated[] => {
		const measures = callouts().measures(id, learnerId);
		return measures ? [{ ...measures, at: ended!.getTime() }] : [];
	});
	return { worked: worked.toSorted((a, b) => a.at - b.at), leftOut: ended.length - worked.length };
}
