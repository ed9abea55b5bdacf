/** What a form on the bench says: an action, unchecked, and the number it should have in the path. */
const fields: Readonly<Record<string, readonly string[]>> = {
	demand: ['demand'],
	check: ['check'],
	step: ['step'],
	remedy: ['remedy', 'sure'],
	judge: [],
	prove: [],
	leave: []
};
const lists: Readonly<Record<string, string>> = { judge: 'still', leave: 'told' };

export function readAction(form: FormData): { seq: number; wanted: unknown } {
	const kind = String(form.get('kind') ?? '');
	const single = (fields[kind] ?? []).map((field) => [field, form.get(field)]);
	const list = lists[kind] ? [[lists[kind], form.getAll(lists[kind])]] : [];
	const seq = form.get('seq');
	return { seq: typeof seq === 'string' && /^\d+$/.test(seq) ? Number(seq) : NaN, wanted: Object.fromEntries([['kind', kind], ...single, ...list]) };
}
