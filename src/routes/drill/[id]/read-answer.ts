import type { Answer } from '#shared/review/drills/drill.ts';

/** What stands before the id of a choice in the name of the field that holds its number. */
export const placePrefix = 'place.';

/**
 * The answer that a form carries: a figure as written, choices in the order of the numbers beside them, or those that were chosen.
 * @returns why it is none, where the numbers do not make an order
 */
export function readAnswer(form: FormData): Answer | { readonly refused: string } {
	const written = form.get('written');
	if (written !== null) return { written: String(written).trim().slice(0, 100) };
	const places = [...form].filter(([name]) => name.startsWith(placePrefix)).map(([name, value]) => ({ name, place: Number(value) }));
	if (places.length === 0) return { chosen: form.getAll('chosen').map(String) };
	const inOrder = places.toSorted((a, b) => a.place - b.place);
	if (inOrder.some(({ place }, index) => place !== index + 1)) {
		return { refused: `Give each line a number of its own, from 1 to ${places.length}.` };
	}
	return { chosen: inOrder.map(({ name }) => name.slice(placePrefix.length)) };
}

/** The numbers that a form gave its lines, to be shown again where they were refused. */
export function placesSaid(form: FormData): Record<string, string> {
	const said = [...form].filter(([name]) => name.startsWith(placePrefix));
	return Object.fromEntries(said.map(([name, value]) => [name.slice(placePrefix.length), String(value)]));
}
