/** Tables as comma-separated text (RFC 4180): CRLF after each record, a quote doubled, a field with comma, quote or line break in quotes. */
import papaparse from 'papaparse';

/** By its first character alone, whatever lines come after it. */
const formula = /^[=+\-@\t\r\n]/;

/**
 * @param header  one name a column
 * @param rows    as many fields each; a number that is not finite and `null` are left empty
 * @returns with a byte-order mark, by which spreadsheets know UTF-8. A field that a spreadsheet would take for a formula has `'` put before it.
 */
export function csvOf(header: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string {
	const fields = rows.map((row) => row.map((field) => (typeof field === 'number' && !Number.isFinite(field) ? null : field)));
	const text = papaparse.unparse({ fields: [...header], data: fields }, { newline: '\r\n', escapeFormulae: formula });
	return `\uFEFF${text}\r\n`;
}

export const csvType = 'text/csv; charset=utf-8; header=present';
