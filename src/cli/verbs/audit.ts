/** Goes through the audit trail of a server, whether it runs or not, and says whether it is whole, and whether marks are those that it tells of. */
import { alteredRows, type Altered } from '../../lib/server/audit/against-rows.ts';
import { verifyAudit, type Audited } from '../../lib/server/audit/audit.ts';
import { dataFolder } from '../../lib/server/folders.ts';
import { DataFolderProblem, openToRead } from '../../lib/server/database/open.ts';
import * as option from '../options.ts';
import type { Verb } from '../verb.ts';

/** `altered` only of a whole trail: a broken one tells of nothing. */
type Held = Extract<Audited, { outcome: 'broken' }> | (Extract<Audited, { outcome: 'whole' }> & { readonly altered: readonly Altered[] });

export const audit: Verb = {
	name: 'audit',
	says: 'Verifies the audit trail of PROVEWELL_DATA, holds marks and papers against it, and prints its head; with a head kept from before, whether the trail still holds it.',
	options: { head: option.head },
	run(given): Held {
		const db = openToRead(dataFolder());
		try {
			// One look at the file, whatever a server writes meanwhile.
			return db.transaction((): Held => {
				const result = verifyAudit(db, given.may(option.head));
				return result.outcome === 'broken' ? result : { ...result, altered: alteredRows(db) };
			});
		} catch (error) {
			throw new DataFolderProblem(`The file in ${dataFolder()} has no audit trail that can be read: ${(error as Error).message}.`, {
				cause: error
			});
		} finally {
			db.$client.close();
		}
	},
	show(result: Held): string {
		if (result.outcome === 'broken') return `The audit trail is broken at row ${result.at}: ${result.says}.`;
		const { rows, head, holds, altered } = result;
		const lines = [`The audit trail is whole: ${rows} ${rows === 1 ? 'row' : 'rows'}.`, `Head: ${head}`];
		if (holds !== undefined)
			lines.push(
				holds
					? 'It holds the head that was named.'
					: 'It does not hold the head that was named: rows were taken off its end, or the whole was written anew.'
			);
		if (altered.length > 0) lines.push('What is kept is not what it tells of:');
		return [...lines, ...altered.map(({ row, says }) => `${row === null ? 'no row' : `row ${row}`}: ${says}.`)].join('\n');
	},
	code: (result: Held) => (result.outcome === 'whole' && result.holds !== false && result.altered.length === 0 ? 0 : 1)
};
