/** Figures as this page writes them. */

/** `72 %`, with a space that does not break. */
export const percentText = (share: number): string => `${Math.round(100 * share)}\u00A0%`;

/** Two places, the sign written as a minus, no zero before the point left out: `−0.12`. */
export const twoPlaces = (value: number): string =>
	value
		.toFixed(2)
		.replace(/^-0\.00$/, '0.00')
		.replace('-', '−');

/** One place with its sign, the minus as one: `+1.2`. */
export const signed = (value: number): string => `${value > 0 ? '+' : ''}${value.toFixed(1).replace('-', '−')}`;
