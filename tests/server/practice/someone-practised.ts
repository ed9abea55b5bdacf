import { closeDatabase, database } from '$lib/server/database/open.ts';
import { reviewLogIn } from '$lib/server/database/review-log.ts';

import { addLearner } from '$lib/server/accounts/index.ts';
import { practice } from '$lib/server/practice/practice.ts';
import type { Review } from '#shared/review/skill.ts';
import { afterAll, beforeAll, vi } from 'vitest';
import { makeDataFolder, removeFolder } from '../../test-data.ts';

/** One database for the file of tests, as a server has one for its life. */
export function oneServer(): void {
	let folder: string;
	beforeAll(() => {
		folder = makeDataFolder();
		vi.stubEnv('PROVEWELL_DATA', folder);
		database();
	});
	afterAll(() => {
		closeDatabase();
		vi.unstubAllEnvs();
		removeFolder(folder);
	});
}

/** A learner whose log holds these lines. */
export function someoneWho(...log: readonly Review[]): string {
	const { id } = addLearner({ guest: true, invented: false });
	for (const review of log) {
		reviewLogIn(database()).add({ ...review, at: new Date(review.at), learner: id });
		practice().memories.take(id, review);
	}
	return id;
}
