/** What a standing flame passes to the electrode that proves it. */

/** Share of the full flame current that is left as the rate goes towards none; the rest comes with the rate. Invented. */
const AT_NO_RATE = 0.55;
const WITH_RATE = 0.45;

/** Flame current of a flame that stands well, as a share of that at full rate. @param gasShare of full rate; above 1 gives no more */
export function flameShare(gasShare: number): number {
	return AT_NO_RATE + WITH_RATE * Math.min(1, gasShare);
}
