import type { CalloutView } from '#shared/callout/view.ts';
import type { Learner } from '$lib/server/accounts';

declare global {
	namespace App {
		interface Locals {
			/** Who is at the browser; null before a first callout. */
			learner: Learner | null;
		}
		interface PageData {
			/** On the pages of one callout: running, or in its debrief. */
			view?: CalloutView;
		}
		interface Error {
			message: string;
			/** Shown with an unforeseen error, so that it can be found in the log. */
			id?: string;
		}
	}
}

export {};
