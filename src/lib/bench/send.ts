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
	return async ({ cancel, formData, formElement, submitter }) => {
		const focusKept = keepFocus(submitter ?? formElement);
		if (!(await bench.turns.take(wordOf(formData)))) return cancel();
		// What went before it may have moved the callout on.
		formData.set('seq', String(bench.seq));
		const notDone = (not: NotDone) => (bench.notDone = { ...not, says: withHeldBack(not.says, bench.turns.holdBack()) });
		const unsent = (says: string): NotDone => ({ kind: 'unsent', says, again: () => formElement.requestSubmit(submitter) });
		if (!navigator.onLine) {
			notDone(unsent(offline));
			return cancel();
		}
		return async ({ result }) => {
			if (result.type === 'success' && result.data) {
				bench.notDone = null;
				bench.take(result.data.now);
				done();
				bench.turns.done();
				await focusKept();
			} else if (result.type === 'failure' && result.data) {
				notDone(result.data.notDone);
				bench.take(result.data.now);
				await focusKept();
			} else if (result.type === 'error' && !result.status) notDone(unsent(lost));
			else {
				// The callout has ended, or the server says that something is wrong.
				bench.turns.holdBack();
				await applyAction(result);
			}
		};
	};
}

/** What a form asks for, whatever its place in the path. */
function wordOf(formData: FormData): string {
	return JSON.stringify([...formData].filter(([name]) => name !== 'seq'));
}

function withHeldBack(says: string, count: number): string {
	if (count === 0) return says;
	const what = count === 1 ? 'What you chose after it was' : `The ${count} things that you chose after it were`;
	return `${says} ${what} not done either.`;
}
