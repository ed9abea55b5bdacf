/** How sentences of a refresher are put. */

/** With a full stop, unless there is one. */
export const ended = (words: string): string => (/[.?]$/.test(words) ? words : `${words}.`);
