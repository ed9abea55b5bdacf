/** Sends what waits in a data folder's outbox, as a process that can be killed. Arguments: the folder, the store's address, user, password. */
import { openDatabase } from '../../src/lib/server/database/open.ts';
import { senderIn } from '../../src/lib/server/records/sender.ts';
import { statementsFile, statementsFileAt } from '../../src/lib/server/records/statements-file.ts';

const [folder, address, user, password] = process.argv.slice(2) as [string, string, string, string];
const file = statementsFileAt(statementsFile(folder));
await senderIn(openDatabase(folder), { store: { address, user, password }, file }).pass(new AbortController().signal);
