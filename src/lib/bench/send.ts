/** Sends one action of the path from a page with scripts: held back without a connection, done once, answered with the callout as it then stands. */
import { applyAction } from '$app/forms';
import type { SubmitFunction } from '@sveltejs/kit';
import type { Bench, NotDone, Now } from './bench';
import { keepFocus } from './keep-focus';

const offline = 'This browser is offline, so this was held back. What you chose or typed is still there.';
const lost = 'The server could not be reached. What you chose or typed is still there; sending it again does nothing twice.';

type Done = { now: Now };
type Not = { now: Now; notDone: NotDone };

/** @param done  what the form does once its action is stored */
export function sending(bench: Bench, done: () => void): SubmitFunction<Done, Not> {
	return ({ cancel, formElement, submitter }) => {
		if (bench.busy) return cancel();
		const unsent = (says: string): NotDone => ({ kind: 'unsent', says, again: () => formElement.requestSubmit(submitter) });
		if (!navigator.onLine) {
			bench.notDone = unsent(offline);
			return cancel();
		}
		bench.busy = true;
		const focusKept = keepFocus(submitter ?? formElement);
		return async ({ result }) => {
			bench.busy = false;
			if (result.type === 'success' && result.data) {
				bench.notDone = null;
				bench.take(result.data.now);
				done();
				await focusKept();
			} else if (result.type === 'failure' && result.data) {
				bench.notDone = result.data.notDone;
				bench.take(result.data.now);
				await focusKept();
			} else if (result.type === 'error' && !result.status) bench.notDone = unsent(lost);
			// The callout has ended, or the server says that something is wrong.
			else await applyAction(result);
		};
	};
}
