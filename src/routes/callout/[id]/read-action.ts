/** What a form on the bench says: an action, unchecked, and the number it should have in the path. */
const fields: ReadonlyMap<string, readonly string[]> = new Map([
	['demand', ['demand']],
	['check', ['check']],
	['step', ['step']],
	['remedy', ['remedy', 'sure']],
	['note', ['text']]
]);
const lists: ReadonlyMap<string, string> = new Map([
	['judge', 'still'],
	['leave', 'told']
]);

export function readAction(form: FormData): { seq: number; wanted: unknown } {
	const kind = String(form.get('kind') ?? '');
	const single = (fields.get(kind) ?? []).map((field) => [field, plain(form.get(field))]);
	const listed = lists.get(kind);
	// An empty field names nothing: some clients send it where no box is ticked.
	const list = listed ? [[listed, form.getAll(listed).filter((value) => value !== '')]] : [];
	const seq = form.get('seq');
	return {
		seq: typeof seq === 'string' && /^\d+$/.test(seq) ? Number(seq) : NaN,
		wanted: Object.fromEntries([['kind', kind], ...single, ...list, ...(kind === 'check' ? setting(form) : [])])
	};
}

/** What a form asks for, in turn: what was predicted of a check goes before the check. */
export function readActions(form: FormData): { seq: number; wanted: [unknown, ...unknown[]] } {
	const { seq, wanted } = readAction(form);
	if (form.get('kind') !== 'predict') return { seq, wanted: [wanted] };
	const check = { kind: 'check', check: form.get('check'), ...Object.fromEntries(setting(form)) };
	return { seq, wanted: [{ kind: 'predict', check: form.get('check'), expects: expects(form) }, check] };
}

/** Suspects in the order of the form, each with what it would read; those not chosen are left out. */
function expects(form: FormData): { fault: FormDataEntryValue; reads: FormDataEntryValue }[] {
	const reads = form.getAll('reads');
	return form.getAll('fault').flatMap((fault, at) => (fault === '' ? [] : [{ fault, reads: reads[at] ?? '' }]));
}

/** How an instrument was set by hand; nothing where it sets itself. */
function setting(form: FormData): [string, unknown][] {
	const range = form.get('range');
	const leads = [form.get('brown'), form.get('blue')];
	return [
		...(range ? [['range', range] as [string, unknown]] : []),
		...(leads.every(Boolean) ? [['terminals', leads] as [string, unknown]] : [])
	];
}

/** A form sends each line break as two characters; a note counts it as the one that was typed. */
function plain(value: FormDataEntryValue | null): FormDataEntryValue | null {
	return typeof value === 'string' ? value.replaceAll('\r\n', '\n') : value;
}
