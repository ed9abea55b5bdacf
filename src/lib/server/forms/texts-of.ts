/** The texts of a form by the names of its fields, the last where a name comes twice. Files are no texts. */
export const textsOf = (form: FormData): Record<string, string> =>
	Object.fromEntries([...form].filter((entry): entry is [string, string] => typeof entry[1] === 'string'));
