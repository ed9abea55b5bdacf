import { page } from '$app/state';

/** Where an item of the sheet that is shown is played again. */
export const resolvedPath = (slot: number): string => `${page.url.pathname}/${slot}`;
