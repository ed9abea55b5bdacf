/** An amount in the rules' currency, `GBP` or a sign as it is, in whole units where it is whole. */
export function money(amount: number, currency: string): string {
	const digits = Number.isInteger(amount) ? 0 : 2;
	if (!/^[A-Z]{3}$/.test(currency)) return `${currency}${amount.toFixed(digits)}`;
	return new Intl.NumberFormat('en-GB', {
		style: 'currency',
		currency,
		minimumFractionDigits: digits,
		maximumFractionDigits: digits
	}).format(amount);
}

/** Minutes as written on a bench: `1 min`, `1 h 05`. */
export function minutesText(minutes: number): string {
	const whole = Math.round(minutes);
	return whole < 60 ? `${whole} min` : `${Math.floor(whole / 60)} h ${String(whole % 60).padStart(2, '0')}`;
}
