/**
 * The figures of a learner's progress as tables for other programs. Times are UTC, ISO 8601. Site minutes are those of a callout's own clock;
 * real ones are the learner's. Pack and seed are told of callouts that have ended, and of no other.
 */
import { areas } from '#shared/scenario/areas.ts';
import { database } from '../database/open.ts';
import { reviewLogIn } from '../database/review-log.ts';
import { csvOf } from '../csv.ts';
import { practice } from './practice.ts';
import { skillsHeld, workedCallouts } from './progress.ts';

type Maker = (learnerId: string, now: number) => string;

const time = (ms: number) => new Date(ms).toISOString();
const yes = (one: boolean | null) => (one === null ? null : one ? 'yes' : 'no');

/** By the name in the address. */
const files: Readonly<Record<string, Maker>> = {
	skills(learnerId, now) {
		const map = skillsHeld(learnerId, now);
		const entries = [...map.rows.flatMap((row) => row.entries), ...map.drills].flatMap((entry) => entry ?? []);
		return csvOf(
			['skill', 'name', 'recall now', 'recall in 7 days', 'recall in 30 days', 'due', 'shown last', 'times shown', 'times lost'],
			entries.map(({ skill, remembered: r }) => [
				skill.id,
				skill.name,
				...(r
					? [share(r.now), share(r.in7Days), share(r.in30Days), time(r.due), time(r.last), r.reviews, r.lapses]
					: [null, null, null, null, null, 0, 0])
			])
		);
	},

	reviews(learnerId) {
		const { skills } = practice().plans;
		return csvOf(
			['at', 'skill', 'name', 'shown', 'real minutes', 'by'],
			reviewLogIn(database())
				.all(learnerId)
				.map(({ at, skill, recall, minutes, drill }) => [
					time(at.getTime()),
					skill,
					skills.get(skill)?.name ?? null,
					recall,
					Number(minutes.toFixed(2)),
					drill === null ? 'callout' : 'drill'
				])
		);
	},

	callouts(learnerId, now) {
		return csvOf(
			[
				'ended',
				'family',
				'fault area',
				'site minutes',
				'parts and materials',
				'currency',
				'cured',
				'sound parts fitted',
				'safety rules breached',
				'of them dangerous',
				'complaint seen before work',
				'cure proved',
				'pack hash',
				'seed'
			],
			workedCallouts(learnerId, now).worked.map((one) => [
				time(one.at),
				one.family,
				one.area && areas[one.area],
				one.minutes,
				one.spent,
				one.currency,
				yes(one.cured),
				one.soundParts,
				one.breaches,
				one.dangerous,
				yes(one.verifiedFirst),
				yes(one.proved),
				one.packHash,
				one.seed
			])
		);
	}
};

const share = (recall: number) => Number(recall.toFixed(4));

/** @returns the file of that name, or null where there is none */
export function progressFile(name: string, learnerId: string, now = Date.now()): string | null {
	return Object.hasOwn(files, name) ? files[name](learnerId, now) : null;
}
