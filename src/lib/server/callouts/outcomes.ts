/** What comes of asking for a callout, or of doing something in it. */
import type { CalloutView } from '#shared/callout/view.ts';
import type { Debrief } from '#shared/marking/mark-sheet.ts';

/** A callout as its learner may see it. */
export interface RunningCallout {
	readonly attemptId: string;
	/** The number that the next action must carry. A page that was left behind by another tab carries an older one. */
	readonly seq: number;
	readonly view: CalloutView;
}

/** An attempt of which this version can no longer work out the figures. */
export interface Unplayable {
	readonly outcome: 'unplayable';
	readonly says: string;
}

/** This learner has none by that id. It covers what belongs to someone else, so that an id tells nothing. */
export interface Missing {
	readonly outcome: 'missing';
}

/** A callout as it stands, where it does. */
export type Found = ({ readonly outcome: 'standing' } & RunningCallout) | Unplayable | Missing;

export type Started = { readonly outcome: 'started'; readonly attemptId: string } | { readonly outcome: 'invalid'; readonly says: string };

/** All but the last two show the callout as it now stands. */
export type Acted =
	| ({ readonly outcome: 'done' } & RunningCallout)
	| ({ readonly outcome: 'refused' | 'conflict' | 'invalid'; readonly says: string } & RunningCallout)
	| Unplayable
	| Missing;

export type Debriefed =
	| { readonly outcome: 'debriefed'; readonly debrief: Debrief; readonly callout: RunningCallout; readonly invented: boolean }
	| { readonly outcome: 'running' }
	| Unplayable
	| Missing;

export const missing: Missing = { outcome: 'missing' };
export const unplayable: Unplayable = {
	outcome: 'unplayable',
	says: 'This callout was begun with an earlier version of the appliance, and this version would give other figures. It cannot be played on.'
};
