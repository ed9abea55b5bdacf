/**
 * What a statement must have to be taken by a record store: the required fields and the rules between fields, as the Experience API (xAPI)
 * 1.0.3, part two "Experience API Data", has them. Only what is written here is dealt with: agents by account, activities, references to
 * statements. Anything else in a statement is an error, as the specification has it of properties that it does not name.
 * @see Experience API specification 1.0.3, part two, sections 2.2 to 2.4 and 4: the property tables as read in the specification's text, the
 * rule that no value may be null and that platform goes with an activity *from memory*
 */
import { z } from 'zod';

const iri = z.string().regex(/^[a-z][a-z0-9+.-]*:\S+$/i, 'an IRI with its scheme');
const text = z.string().min(1);
/** By language tag (RFC 5646). */
const languageMap = z.record(z.string().regex(/^[a-z]{2,3}(-[a-z0-9]{2,8})*$/i, 'a language tag'), text);
const extensions = z.record(iri, z.json());
/** Days to seconds; the whole of it never empty. */
const duration = z.string().regex(/^P(?=\d|T\d)(\d+D)?(T(?=\d)(\d+H)?(\d+M)?(\d+(\.\d+)?S)?)?$/, 'an ISO 8601 duration');
/** UTC alone: 1.0.3 takes any zone, its successor is stricter, and this suits both. */
const timestamp = z.iso.datetime();

const score = z
	.strictObject({ scaled: z.number().min(-1).max(1), raw: z.number(), min: z.number(), max: z.number() })
	.partial()
	.superRefine(({ raw, min, max }, context) => {
		const refuse = (message: string) => context.addIssue({ code: 'custom', message });
		if (min !== undefined && max !== undefined && min >= max) refuse('min is less than max');
		if (raw !== undefined && min !== undefined && raw < min) refuse('raw is at least min');
		if (raw !== undefined && max !== undefined && raw > max) refuse('raw is at most max');
	});

const agent = z.strictObject({
	objectType: z.literal('Agent').optional(),
	name: text.optional(),
	/** One identifier and no other: by account, so that no e-mail address is told. */
	account: z.strictObject({ homePage: iri, name: text })
});

const activity = z.strictObject({
	objectType: z.literal('Activity').optional(),
	id: iri,
	definition: z.strictObject({ name: languageMap, description: languageMap, type: iri, extensions }).partial().optional()
});

const statementRef = z.strictObject({ objectType: z.literal('StatementRef'), id: z.uuid() });

/** The verb by which a statement takes back another. */
export const voided = 'http://adlnet.gov/expapi/verbs/voided';

export const statementRules = z
	.strictObject({
		id: z.uuid(),
		actor: agent,
		verb: z.strictObject({ id: iri, display: languageMap }),
		object: z.union([statementRef, activity]),
		result: z
			.strictObject({ score, success: z.boolean(), completion: z.boolean(), duration, response: z.string(), extensions })
			.partial()
			.optional(),
		context: z.strictObject({ registration: z.uuid(), platform: text, language: text, extensions }).partial().optional(),
		timestamp
	})
	.superRefine(({ verb, object, context }, problems) => {
		const refuse = (message: string) => problems.addIssue({ code: 'custom', message });
		const isReference = object.objectType === 'StatementRef';
		if (verb.id === voided && !isReference) refuse('what takes back a statement refers to one');
		if (isReference && context?.platform !== undefined) refuse('a platform goes with an activity');
	});

export type Statement = z.infer<typeof statementRules>;
