import type { Figures } from '#shared/review/progress/progress.ts';
import type { Share } from '#shared/quantity/wilson.ts';

/** A figure of how callouts are worked, as a strip over time. */
export interface Strip {
	readonly id: string;
	readonly says: string;
	/** Above a column. */
	readonly short: string;
	/** Null where no callout so far can tell. */
	readonly value: (figures: Figures) => number | null;
	readonly written: (figures: Figures) => string;
	/** What fills the strip, unless more has been met. */
	readonly full: number;
}

const mean = (value: number) => value.toFixed(1);
const shareWords = ({ count, of }: Share) => (of === 0 ? 'none yet' : `${count} of ${of}`);

export const strips: readonly Strip[] = [
	{
		id: 'sound-parts',
		says: 'Sound parts changed, a callout',
		short: 'Sound parts',
		value: ({ soundParts }) => soundParts,
		written: ({ soundParts }) => mean(soundParts),
		full: 2
	},
	{
		id: 'breaches',
		says: 'Unsafe acts, a callout',
		short: 'Unsafe acts',
		value: ({ breaches }) => breaches,
		written: ({ breaches }) => mean(breaches),
		full: 2
	},
	{
		id: 'verified',
		says: 'Complaint seen before any work',
		short: 'Seen first',
		value: ({ verifiedFirst }) => verifiedFirst.share,
		written: ({ verifiedFirst }) => shareWords(verifiedFirst),
		full: 1
	},
	{
		id: 'proved',
		says: 'Cures proved',
		short: 'Proved',
		value: ({ proved }) => proved.share,
		written: ({ proved }) => shareWords(proved),
		full: 1
	}
];
