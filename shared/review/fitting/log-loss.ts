/** How far predictions were from what came of them. */

/** Nearer than this to 0 or 1 no prediction is taken to be: a single surprise would else be worth more than all the rest. */
const least = 1e-6;

/** What one prediction cost: -ln of the chance that was given to what happened. */
export function surprise(predicted: number, kept: boolean): number {
	const chance = Math.min(1 - least, Math.max(least, kept ? predicted : 1 - predicted));
	return -Math.log(chance);
}

/**
 * Mean of -ln of the chance that was given to what happened. 0 is certainty that was always right; ln 2 = 0.693 is a coin.
 * @param predicted chances of success, 0 to 1
 * @param outcomes  whether each was one
 * @throws RangeError where there is nothing to judge, or not one outcome a prediction
 */
export function logLoss(predicted: readonly number[], outcomes: readonly boolean[]): number {
	if (predicted.length === 0 || predicted.length !== outcomes.length) {
		throw new RangeError(`an outcome for each of one or more predictions is expected, not ${outcomes.length} for ${predicted.length}`);
	}
	return predicted.reduce((sum, chance, i) => sum + surprise(chance, outcomes[i]!), 0) / predicted.length;
}
