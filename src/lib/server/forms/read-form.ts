import type { z } from 'zod';

/** What is wrong with a form, in words, by field. */
export type Problems = Readonly<Record<string, string>>;

/**
 * The fields of a form as its schema has them.
 * @returns the data, or the first problem of each field
 */
export function readFields<Schema extends z.ZodType>(
	schema: Schema,
	fields: unknown
): { readonly data: z.output<Schema>; readonly problems?: never } | { readonly problems: Problems; readonly data?: never } {
	const parsed = schema.safeParse(fields);
	if (parsed.success) return { data: parsed.data };
	const problems: Record<string, string> = {};
	for (const { path, message } of parsed.error.issues) problems[String(path[0])] ??= message;
	return { problems };
}
