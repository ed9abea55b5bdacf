/** Takes what was invented out of the database. */
import { closeDatabase, database } from '../../lib/server/database/open.ts';
import { clearDemo, type Cleared } from '../../lib/server/demo/demo.ts';
import type { Verb } from '../verb.ts';

export const clearDemoVerb: Verb = {
	name: 'clear-demo',
	says: 'Takes the invented visits, cohorts and paper out of the database of PROVEWELL_DATA, for good.',
	options: {},
	run(): Cleared {
		try {
			return clearDemo(database());
		} finally {
			closeDatabase();
		}
	},
	show: ({ learners, cohorts }: Cleared) =>
		`Taken away: ${cohorts} cohorts and ${learners} learners, with all that was theirs. They do not come back.`
};
