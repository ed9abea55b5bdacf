/** Longer than this between two actions and the learner is taken to be elsewhere [min]. */
export const idleAfterMinutes = 5;

const msOfMinute = 60_000;

/**
 * What practice took by the learner's own clock: the time from one moment to the next, summed, with the gaps in which they were elsewhere
 * left out. An apprentice who is called to supper has not taken an hour over a diverter.
 * @param moments [ms since 1970], of the beginning, of each action and so of the end, in the order they were stored
 * @returns [min], >= 0; 0 for fewer than two moments; a clock set back between two counts nothing
 */
export function ownMinutes(moments: readonly number[]): number {
	const gaps = moments.slice(1).map((at, index) => (at - moments[index]!) / msOfMinute);
	return gaps.filter((gap) => gap > 0 && gap <= idleAfterMinutes).reduce((sum, gap) => sum + gap, 0);
}
