import type { Learner } from '$lib/server/accounts';

declare global {
	namespace App {
		interface Locals {
			/** Who is at the browser; null before a first callout. */
			learner: Learner | null;
		}
		interface Error {
			message: string;
			/** Shown with an unforeseen error, so that it can be found in the log. */
			id?: string;
		}
	}
}

export {};
