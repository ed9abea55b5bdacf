/** What every part of the bench needs to know of the callout it belongs to. */
import { createContext } from 'svelte';
import type { CalloutView } from '#shared/callout/view.ts';
import type { Gap } from '#shared/marking/mark-sheet.ts';
import type { SoundBand } from '#shared/marking/sound-band.ts';
import type { Turns } from './turns.svelte';

/** The callout as it stands, as the server last gave it. */
export interface Now {
	readonly view: CalloutView;
	/** The number that the next action must carry. */
	readonly seq: number;
	/** Null while they are being worked out; empty where they are not asked for or nothing has been judged. */
	readonly bands: readonly SoundBand[] | null;
	/** Predictions that were observed; null while they are being worked out. */
	readonly gaps: readonly Gap[] | null;
	/** Null where it is switched off. */
	readonly coaching: Coaching | null;
}

/** How coaching stands before the next check. */
export interface Coaching {
	/** Whether it asks for a prediction. */
	readonly asks: boolean;
	/** How often it asks now, in words. */
	readonly says: string;
}

/** Why the last thing asked was not done: nothing was stored and no time passed. */
export interface NotDone {
	/** It cannot be done as things stand; the callout moved on elsewhere; it never reached the server. */
	readonly kind: 'refused' | 'conflict' | 'unsent';
	readonly says: string;
	/** Sends the same again; where it had been done after all, it is not done twice. */
	readonly again?: () => void;
}

export interface Bench extends Now {
	/** Of a formal paper, which has neither coaching nor hints. */
	readonly isFormal: boolean;
	/** The place that is looked at, or null. */
	readonly place: string | null;
	/** One action is on its way at a time. */
	readonly turns: Turns;
	notDone: NotDone | null;
	look(place: string): void;
	/** Takes the callout as it stands after an action. */
	take(now: Now): void;
}

export const [getBench, setBench] = createContext<Bench>();
