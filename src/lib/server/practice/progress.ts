/** What a learner's practice has come to, for the page of it and for its files. */
import {
	calibration,
	figuresOverTime,
	minutesByWeek,
	type Calibrated,
	type Dated,
	type Figures,
	type Week
} from '#shared/review/progress/progress.ts';
import { skillsMap, type SkillsMap } from '#shared/review/progress/skills-map.ts';
import { attemptsIn } from '../database/attempts.ts';
import { database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { callouts } from '../callouts/callouts.ts';
import { heldOf } from '../sittings/release.ts';
import { reviewOf } from './memories.ts';
import { practice } from './practice.ts';

/** Callouts further back are left out: a judgement of ours, some months of practice. */
const mostCallouts = 200;

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
	/** How many callouts are looked at, and whether there are more. */
	readonly most: number;
	readonly isCut: boolean;
	readonly zone: string;
}

/** @param learnerId  null for a visitor who is no learner yet */
export function progressOf(learnerId: string | null, now = Date.now()): Progress {
	const { plans, memories } = practice();
	const { zone } = memories.schedulerOf(learnerId);
	const log = learnerId === null ? [] : reviewLogIn(database()).all(learnerId).map(reviewOf);
	const { worked, leftOut, isCut } = workedCallouts(learnerId, now);
	return {
		map: skillsHeld(learnerId, now),
		families: plans.families,
		weeks: minutesByWeek(log, now, zone),
		figures: figuresOverTime(worked),
		calibration: calibration(worked),
		leftOut,
		most: mostCallouts,
		isCut,
		zone
	};
}

/** @param learnerId  null for a visitor who is no learner yet */
export function skillsHeld(learnerId: string | null, now: number): SkillsMap {
	const { plans, memories } = practice();
	return skillsMap([...plans.skills.values()], [...memories.of(learnerId).values()], now, memories.schedulerOf(learnerId));
}

/** Ended callouts, those of them that can no longer be told, and whether there are more than are looked at. */
export interface Worked {
	/** The earliest first. */
	readonly worked: readonly Dated[];
	readonly leftOut: number;
	readonly isCut: boolean;
}

/** How each of the latest ended callouts was worked, those of a paper that must not be told yet left out. */
export function workedCallouts(learnerId: string | null, now: number): Worked {
	const { attempts: held } = learnerId === null ? { attempts: new Set<string>() } : heldOf(database(), learnerId, now);
	const all = learnerId === null ? [] : attemptsIn(database()).latestEnded(learnerId, mostCallouts + 1 + held.size);
	const found = all.filter(({ id }) => !held.has(id)).slice(0, mostCallouts + 1);
	const ended = found.slice(0, mostCallouts);
	const worked = ended.flatMap(({ id, learner, ended }): Dated[] => {
		const measures = callouts().measures(id, learner);
		return measures ? [{ ...measures, at: ended!.getTime() }] : [];
	});
	return {
		worked: worked.toSorted((a, b) => a.at - b.at),
		leftOut: ended.length - worked.length,
		isCut: found.length > ended.length
	};
}
