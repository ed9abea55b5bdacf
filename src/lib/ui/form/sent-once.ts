import { tick } from 'svelte';
import type { SubmitFunction } from '@sveltejs/kit';

const underWay = new WeakSet<HTMLFormElement>();

/** Sends a form once however often it is pressed; when it comes back turned away it is as it was written, at the first field that is wrong. */
export const sentOnce: SubmitFunction = ({ formElement, cancel }) => {
	if (underWay.has(formElement)) return cancel();
	underWay.add(formElement);
	return async ({ result, update }) => {
		underWay.delete(formElement);
		await update({ reset: result.type !== 'failure' });
		await tick();
		formElement.querySelector<HTMLElement>('[aria-invalid=true]')?.focus();
	};
};
