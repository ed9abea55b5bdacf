/** Sizes of a drawing in its window, as shares of the window's width. */

/** The largest, and what one press of a button or a key does. */
export const most = 4;
const step = 1.4;
/** Narrowest that a drawing is made, in pixels: below this its places could no longer be hit. */
const narrowest = 320;

export interface Room {
	/** Width of the window, and height that the screen has for it, in pixels. */
	readonly width: number;
	readonly height: number;
	/** Height of the drawing for one of width. */
	readonly tall: number;
}

/** The size at which the whole drawing is seen at once, as far as its places can still be hit; never above the window's width. */
export function whole({ width, height, tall }: Room): number {
	return Math.min(1, Math.max(height / (width * tall), narrowest / width));
}

/** @returns the size wanted, kept between the whole and the largest */
export function kept(wanted: number, room: Room): number {
	return Math.min(most, Math.max(whole(room), wanted));
}

/** The next size up or down; going down from a large one it stops at the window's width on its way. */
export function stepped(from: number, direction: 'in' | 'out', room: Room): number {
	const to = direction === 'in' ? from * step : from / step;
	const passes = (from - 1) * (to - 1) < -1e-9;
	return kept(passes ? 1 : to, room);
}

/**
 * Where to scroll so that a point keeps its place under the pointer.
 * @param scrolled  pixels scrolled before   @param at  the pointer, in pixels from the window's edge
 * @param ratio     new size by old size
 */
export function scrollKeeping(scrolled: number, at: number, ratio: number): number {
	return (scrolled + at) * ratio - at;
}
