import { copyFileSync, mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, vi } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { openDatabase } from '$lib/server/database/open.ts';
import { settleInQuiet } from '$lib/server/database/settle.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { begun, doSome, freshFolder } from './fresh.ts';

it('brings everything into the one file in a quiet moment, so that a copy of it is whole', async () => {
	const folder = freshFolder();
	const db = openDatabase(folder);
	settleInQuiet(db, 20);
	const learnerId = addLearner({ guest: true, invented: false }, db).id;
	const callouts = calloutsIn(db, packs());
	const at = doSome(callouts, learnerId, begun(callouts, learnerId), 3);
	await vi.waitFor(() => expect(statSync(join(folder, 'provewell.sqlite-wal')).size).toBe(0), { timeout: 5000 });

	const copy = join(folder, 'copy');
	mkdirSync(copy);
	copyFileSync(join(folder, 'provewell.sqlite'), join(copy, 'provewell.sqlite'));
	const copied = openDatabase(copy);
	expect(calloutsIn(copied, packs()).load(at.attemptId, learnerId)).toEqual(at);
	copied.$client.close();

	// It goes on being written to, and waits for nobody who reads.
	const reader = openDatabase(folder);
	reader.$client.exec('begin; select count(*) from action');
	const further = doSome(callouts, learnerId, at, 1);
	await new Promise((later) => setTimeout(later, 200));
	expect(callouts.load(at.attemptId, learnerId)).toEqual(further);
	reader.$client.close();
	db.$client.close();
});
