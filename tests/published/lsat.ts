/**
 * Sections 6 and 7 of the Law School Admission Test, five items each, 1000 people: how many gave each pattern of right and wrong answers.
 * Source: Bock and Lieberman 1970, Fitting a response model for n dichotomously scored items, Psychometrika 35, 179-197. Read in the data
 * files of two general-purpose statistics packages for R, and not in the article: section 6 from ltm (`LSAT`) and mirt (`LSAT6`), section 7
 * from mirt (`LSAT7`); counts, exact. Two patterns of section 6 were given by nobody.
 */
const patterns: Readonly<Record<string, readonly [section6: number, section7: number]>> = {
	'00000': [3, 12],
	'00001': [6, 19],
	'00010': [2, 1],
	'00011': [11, 7],
	'00100': [1, 3],
	'00101': [1, 19],
	'00110': [3, 3],
	'00111': [4, 17],
	'01000': [1, 10],
	'01001': [8, 5],
	'01010': [0, 3],
	'01011': [16, 7],
	'01100': [0, 7],
	'01101': [3, 23],
	'01110': [2, 8],
	'01111': [15, 28],
	'10000': [10, 7],
	'10001': [29, 39],
	'10010': [14, 11],
	'10011': [81, 34],
	'10100': [3, 14],
	'10101': [28, 51],
	'10110': [15, 15],
	'10111': [80, 90],
	'11000': [16, 6],
	'11001': [56, 25],
	'11010': [21, 7],
	'11011': [173, 35],
	'11100': [11, 18],
	'11101': [61, 136],
	'11110': [28, 32],
	'11111': [298, 308]
};

/** A row for each person: 1 for a right answer, 0 for a wrong one. */
const rowsOf = (section: 0 | 1): number[][] =>
	Object.entries(patterns).flatMap(([pattern, counts]) => Array.from({ length: counts[section] }, () => [...pattern].map(Number)));

export const section6 = rowsOf(0);
export const section7 = rowsOf(1);
export const totals = (rows: readonly (readonly number[])[]): number[] => rows.map((row) => row.reduce((sum, one) => sum + one, 0));
