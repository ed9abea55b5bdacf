import { describe, expect, it, onTestFinished } from 'vitest';
import { addLearner } from '$lib/server/accounts/index.ts';
import { giveRole, mostOnPage, people } from '$lib/server/accounts/people.ts';
import { auditOf } from '$lib/server/audit/audit.ts';
import { openDatabase } from '$lib/server/database/open.ts';
import { learner } from '$lib/server/database/schema.ts';
import { addAccount } from '../papers.ts';
import { freshFolder } from './fresh.ts';

function fresh() {
	const db = openDatabase(freshFolder());
	onTestFinished(() => void db.$client.close());
	return { db, owner: addAccount(db, 'Olive', 'owner') };
}
const now = Date.UTC(2026, 4, 5);

describe('the list of people', () => {
	it('holds accounts that somebody can sign in to, by name, and nobody else', () => {
		const { db } = fresh();
		addAccount(db, 'Bea', 'assessor');
		addAccount(db, 'Ann');
		addLearner({ guest: true, invented: false }, db);
		addLearner({ guest: false, invented: true }, db);
		const gone = addAccount(db, 'Gone');
		db.$client.prepare('update learner set gone = 1 where id = ?').run(gone);
		const list = people({}, db);
		expect(list.people.map(({ name, role }) => [name, role])).toEqual([
			['Ann', 'learner'],
			['Bea', 'assessor'],
			['Olive', 'owner']
		]);
		expect(list).toMatchObject({ found: 3, page: 1, pages: 1 });
	});

	it('is searched by any piece of a name, however it is written, and takes no sign for another', () => {
		const { db } = fresh();
		for (const name of ['Ann Field', 'Fielding', '100%', 'under_score']) addAccount(db, name);
		const found = (search: string) => people({ search }, db).people.map(({ name }) => name);
		expect(found('  FIELD ')).toEqual(['Ann Field', 'Fielding']);
		expect(found('%')).toEqual(['100%']);
		expect(found('_')).toEqual(['under_score']);
		expect(found("' or 1=1 --")).toEqual([]);
	});

	it('comes by pages, each of which holds others, and a page that there is not is the nearest there is', () => {
		const { db } = fresh();
		for (let i = 0; i < 2 * mostOnPage; i++) addAccount(db, `Person ${String(i).padStart(3, '0')}`);
		const pages = [1, 2, 3].map((page) => people({ page }, db));
		expect(pages.map(({ people }) => people.length)).toEqual([mostOnPage, mostOnPage, 1]);
		expect(new Set(pages.flatMap(({ people }) => people.map(({ id }) => id))).size).toBe(2 * mostOnPage + 1);
		expect([0, -3, 99, 1.5, Number.NaN].map((page) => people({ page }, db).page)).toEqual([1, 1, 3, 1, 1]);
	});
});

describe('a role', () => {
	it('is given, and the audit trail holds from what to what, and by whom', () => {
		const { db, owner } = fresh();
		const ann = addAccount(db, 'Ann');
		expect(giveRole(owner, ann, 'assessor', now, db)).toEqual({ outcome: 'given', name: 'Ann', role: 'assessor' });
		expect(people({ search: 'ann' }, db).people[0]!.role).toBe('assessor');
		const [entry] = auditOf(db, ann);
		expect(entry).toMatchObject({ kind: 'role-changed', by: owner, at: new Date(now) });
		expect(JSON.parse(entry!.content)).toEqual({ from: 'learner', to: 'assessor' });
	});

	it('given again changes nothing, and one that there is not is refused', () => {
		const { db, owner } = fresh();
		const ann = addAccount(db, 'Ann', 'author');
		expect(giveRole(owner, ann, 'author', now, db).outcome).toBe('given');
		for (const role of ['king', '', null, undefined, 'constructor']) expect(giveRole(owner, ann, role, now, db).outcome).toBe('refused');
		expect(auditOf(db, ann)).toEqual([]);
	});

	it('is not taken from the last owner, whoever else there was', () => {
		const { db, owner } = fresh();
		const second = addAccount(db, 'Second', 'owner');
		expect(giveRole(owner, second, 'learner', now, db).outcome).toBe('given');
		expect(giveRole(owner, owner, 'learner', now, db)).toMatchObject({
			outcome: 'refused',
			isConflict: true,
			says: 'Olive is the only owner. Make somebody else one first.'
		});
		const gone = addAccount(db, 'Gone owner', 'owner');
		db.$client.prepare('update learner set gone = 1 where id = ?').run(gone);
		expect(giveRole(owner, owner, 'assessor', now, db).outcome).toBe('refused');
		expect(
			db
				.select()
				.from(learner)
				.all()
				.find(({ id }) => id === owner)!.role
		).toBe('owner');
	});

	it('is given to no guest and to nobody who is not there', () => {
		const { db, owner } = fresh();
		const guest = addLearner({ guest: true, invented: false }, db).id;
		for (const id of [guest, 'nobody']) expect(giveRole(owner, id, 'assessor', now, db)).toEqual({ outcome: 'missing' });
	});
});
