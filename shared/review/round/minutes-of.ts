/** What practising a skill once is thought to take a learner. */
import type { RoundCuts } from '#shared/scenario/curriculum.ts';
import type { Review, Skill } from '../skill.ts';

/**
 * The median of the learner's own times, drawn towards the curriculum's minutes while there are few of them: with n times,
 * (n median + k minutes) / (n + k). Times of 0 belong to skills shown inside another's callout and tell nothing.
 *
 * The weight k is a judgement of ours (`ownFrom` in the curriculum).
 * @param log of the learner, of any skills
 * @returns minutes, > 0
 */
export function minutesOf(skill: Pick<Skill, 'id' | 'minutes'>, log: readonly Review[], { ownFrom }: Pick<RoundCuts, 'ownFrom'>): number {
	const own = log.flatMap(({ skill: id, minutes }) => (id === skill.id && minutes > 0 ? [minutes] : []));
	if (own.length === 0) return skill.minutes;
	return (own.length * median(own) + ownFrom * skill.minutes) / (own.length + ownFrom);
}

/** Of at least one number; the mean of the middle two where there are as many as that. */
function median(numbers: readonly number[]): number {
	const rising = numbers.toSorted((a, b) => a - b);
	const middle = rising.length / 2;
	return (rising[Math.floor(middle)] + rising[Math.ceil(middle) - 1]) / 2;
}
