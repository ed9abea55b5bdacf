/** What every part of the bench needs to know of the callout it belongs to. */
import { createContext } from 'svelte';
import type { CalloutView } from '#shared/callout/view.ts';

export interface Bench {
	readonly view: CalloutView;
	/** The number that the next action must carry. */
	readonly seq: number;
	/** The place that is looked at, or null. */
	readonly place: string | null;
	/** Set while an action is on its way, so that it is not sent twice. */
	busy: boolean;
	/** Why the last thing asked was not done, or null. */
	refused: string | null;
	look(place: string): void;
}

export const [getBench, setBench] = createContext<Bench>();
