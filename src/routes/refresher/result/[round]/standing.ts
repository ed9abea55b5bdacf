import type { ItemState } from '$lib/server/practice/round-items';

/** How a job without an outcome stands. */
export const standing: Readonly<Record<ItemState, string>> = {
	waiting: 'Not played.',
	begun: 'Begun and not ended.',
	marking: 'Done. Its bill is being worked out.',
	done: 'Done. Its bill is being worked out.',
	over: 'Cannot be played any more: the appliance has changed since.'
};
