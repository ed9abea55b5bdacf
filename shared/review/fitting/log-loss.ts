/** How far a prediction was from what came of it. */

/** Nearer than this to 0 or 1 no prediction is taken to be: a single surprise would else be worth more than all the rest. */
const least = 1e-6;

/** What one prediction cost: -ln of the chance that was given to what happened. */
export function surprise(predicted: number, kept: boolean): number {
	const chance = Math.min(1 - least, Math.max(least, kept ? predicted : 1 - predicted));
	return -Math.log(chance);
}
