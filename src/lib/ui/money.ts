/** An amount in the rules' currency, `GBP` or a sign as it is, to whole units: one rounding wherever it stands. */
export function money(amount: number, currency: string): string {
	if (!/^[A-Z]{3}$/.test(currency)) return `${currency}${Math.round(amount)}`;
	return new Intl.NumberFormat('en-GB', {
		style: 'currency',
		currency,
		maximumFractionDigits: 0
	}).format(Math.round(amount));
}

/** Minutes as written wherever they stand: `1 min`, `65 min`, as the columns of a sheet have them. */
export function minutesText(minutes: number): string {
	return `${Math.round(minutes)} min`;
}

/** The minute on the clock when something was done and over, which is when its readings were taken. */
export function doneAt({ minute, minutes }: { readonly minute: number; readonly minutes: number }): number {
	return Math.round(minute + minutes);
}
