/** What a form on the bench says: an action, unchecked, and the number it should have in the path. */
const fields: ReadonlyMap<string, readonly string[]> = new Map([
	['demand', ['demand']],
	['check', ['check']],
	['step', ['step']],
	['remedy', ['remedy', 'sure']]
]);
const lists: ReadonlyMap<string, string> = new Map([
	['judge', 'still'],
	['leave', 'told']
]);

export function readAction(form: FormData): { seq: number; wanted: unknown } {
	const kind = String(form.get('kind') ?? '');
	const single = (fields.get(kind) ?? []).map((field) => [field, form.get(field)]);
	const listed = lists.get(kind);
	const list = listed ? [[listed, form.getAll(listed)]] : [];
	const seq = form.get('seq');
	return {
		seq: typeof seq === 'string' && /^\d+$/.test(seq) ? Number(seq) : NaN,
		wanted: Object.fromEntries([['kind', kind], ...single, ...list])
	};
}
