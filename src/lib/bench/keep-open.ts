/** Parts of the bench that fold: which of them are open is remembered while places are gone from and come back to. */
import type { Attachment } from 'svelte/attachments';

const open = new Set<string>();

/** @param part  one name for the same part wherever it is drawn again */
export function keptOpen(part: string): Attachment<HTMLDetailsElement> {
	return (details) => {
		if (open.has(part)) details.open = true;
		const remember = () => (details.open ? open.add(part) : open.delete(part));
		details.addEventListener('toggle', remember);
		return () => details.removeEventListener('toggle', remember);
	};
}
