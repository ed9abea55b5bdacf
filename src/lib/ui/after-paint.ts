/** Work that can wait until the answer to a press is on the screen: on a slow phone each piece of it costs a frame. */

/** Does it once what has changed by now is painted. What is put off first is done first. */
export function afterPaint(work: () => void): void {
	requestAnimationFrame(() => setTimeout(work));
}
