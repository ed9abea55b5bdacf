/** Numbers as text, alike on every platform: no locale, no minus sign before a nought. */

const mostDecimals = 10;

/**
 * Decimals that a display of the given resolution shows: 0 for 1 or 5, 1 for 0.5, 2 for 0.25.
 * @param resolution smallest step shown, > 0
 * @throws RangeError if resolution is not a positive finite number
 */
export function decimalsOf(resolution: number): number {
	if (!(resolution > 0) || !Number.isFinite(resolution)) throw new RangeError(`resolution must be above 0 and finite, not ${resolution}`);
	let scaled = resolution;
	for (let decimals = 0; decimals < mostDecimals; decimals++) {
		if (Math.abs(scaled - Math.round(scaled)) <= 1e-9 * scaled) return decimals;
		scaled *= 10;
	}
	return mostDecimals;
}

/**
 * A number with a fixed count of decimals.
 * @param digits decimals, 0 to 10
 * @returns for example `12.50`; `0.0` for a small negative that rounds to nought; `infinite` or `-infinite` where it has no end
 * @throws RangeError if value is not a number or digits is out of range
 */
export function formatNumber(value: number, digits: number): string {
	if (Number.isNaN(value)) throw new RangeError('cannot format what is not a number');
	if (!Number.isInteger(digits) || digits < 0 || digits > mostDecimals) {
		throw new RangeError(`digits must be a whole number from 0 to ${mostDecimals}, not ${digits}`);
	}
	if (!Number.isFinite(value)) return value > 0 ? 'infinite' : '-infinite';
	const text = value.toFixed(digits);
	return text.startsWith('-') && Number(text) === 0 ? text.slice(1) : text;
}
