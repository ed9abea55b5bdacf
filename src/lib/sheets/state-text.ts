/** How far a mark sheet has come, in words. */
import type { LockedOver, SheetState } from '$lib/server/sheets/sheet';

const stateWords: Readonly<Record<SheetState, string>> = {
	marked: 'Marked',
	changed: 'Changed, no second marker yet',
	agreed: 'Second marker agrees',
	disputed: 'Second marker does not agree',
	locked: 'Locked'
};
const overWords: Readonly<Record<LockedOver, string>> = {
	'second-marker': 'Locked over the second marker',
	'not-seconded': 'Locked, not seconded'
};

/** A locked one says what it was locked over. */
export const stateText = ({ state, lockedOver }: { readonly state: SheetState; readonly lockedOver: LockedOver | null }): string =>
	lockedOver === null ? stateWords[state] : overWords[lockedOver];
