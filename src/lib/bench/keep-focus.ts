/** The focus after an action: never lost to the page as a whole because what was pressed is gone. */
import { tick } from 'svelte';

/**
 * @param pressed  what was pressed
 * @returns to be called once the answer is taken: where the focus was lost, the nearest part still there gets it
 */
export function keepFocus(pressed: Element): () => Promise<void> {
	const holders: HTMLElement[] = [];
	for (let at = pressed.parentElement; at && at !== document.body; at = at.parentElement) holders.push(at);
	return async () => {
		await tick();
		if (document.activeElement !== document.body) return;
		const holder = holders.find((one) => one.isConnected && one.offsetParent !== null && !(one instanceof HTMLFormElement));
		if (!holder) return;
		const title = holder instanceof HTMLDetailsElement ? holder.querySelector('summary') : null;
		if (!title) holder.tabIndex = -1;
		(title ?? holder).focus({ preventScroll: true });
	};
}
