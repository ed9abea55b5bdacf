import type { SittingPage } from '$lib/server/sittings/sitting-page';

/** The page of a sitting as it stands in one way. */
export type Page<Outcome extends SittingPage['outcome']> = Extract<SittingPage, { outcome: Outcome }>;

/** How far an item has come, in the words of the page. */
export const stateWords = { untried: 'Untried', begun: 'Begun', done: 'Done' } as const;
