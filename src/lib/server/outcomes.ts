/** How what was asked of a service came out, where it needs no words of that service's own. */
import type { Problems } from './forms/read-form.ts';

export interface Done {
	readonly outcome: 'done';
}
/** Nothing of the kind, or somebody else's, so that an id tells nothing. */
export interface Missing {
	readonly outcome: 'missing';
}
/** What stands in the way, in a sentence. */
export interface Refused {
	readonly outcome: 'refused';
	readonly says: string;
	/** Whether it is how things stand that is in the way, and not what was written in the form. */
	readonly isConflict?: true;
}
/** A form that was turned away: as a whole, or for what stands in single fields. */
export interface RefusedForm {
	readonly outcome: 'refused';
	readonly says?: string;
	readonly problems?: Problems;
	readonly isConflict?: true;
}

export const done: Done = { outcome: 'done' };
export const missing: Missing = { outcome: 'missing' };
/** For what whoever asks can correct in the form. */
export const refused = (says: string): Refused => ({ outcome: 'refused', says });
/** For what cannot be done however the form is filled in, as things stand. */
export const conflict = (says: string): Refused => ({ outcome: 'refused', says, isConflict: true });

/** By which a page answers a refusal. */
export const statusOf = ({ isConflict }: Pick<RefusedForm, 'isConflict'>): 400 | 409 => (isConflict ? 409 : 400);
