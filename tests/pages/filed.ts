/** A cohort with practice and a paper that was sat, put into the database file of the server under test. */
import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import Driver from 'better-sqlite3';

const day = 86_400_000;

export interface Filed {
	readonly cohort: string;
	readonly member: string;
	readonly paper: string;
	/** The handle of the learner's account, which nobody else is to read. */
	readonly handle: string;
}

function inDatabase<T>(work: (db: Driver.Database) => T): T {
	const db = new Driver(join(process.env.PROVEWELL_TEST_DATA!, 'provewell.sqlite'), { timeout: 5000 });
	try {
		return db.transaction(() => work(db)).immediate();
	} finally {
		db.close();
	}
}

function insert(db: Driver.Database, table: string, row: Record<string, unknown>): void {
	const columns = Object.keys(row);
	db.prepare(`insert into ${table} (${columns.map((one) => `"${one}"`).join()}) values (${columns.map(() => '?').join()})`).run(
		...Object.values(row)
	);
}

/** A paper of three drills in two variants that so many sat, and a first sitter who has practised sums for forty days. */
export function filedCohort(assessor: string, name: string, sitters = 12): Filed {
	return inDatabase((db) => {
		const now = Date.now();
		const [cohort, paper, learner] = [randomUUID(), randomUUID(), randomUUID()];
		const handle = `handle-${learner.slice(0, 8)}`;
		const account = db.prepare('select id from learner where name = ?').pluck().get(assessor);
		insert(db, 'cohort', { id: cohort, name: 'Tuesday group', created: now });
		insert(db, 'cohort_assessor', { cohort, assessor: account, since: now });
		insert(db, 'learner', { id: learner, guest: 0, name: handle, name_key: handle, created: now });
		const blueprint = JSON.stringify({ lines: [{ kind: 'drill', drill: 'water-sums', count: 3 }] });
		const rule = JSON.stringify({ mark: 60, noDanger: true, cured: 0 });
		insert(db, 'paper', {
			...{ id: paper, cohort, title: 'Hot water, first paper', mode: 'formal', blueprint, pass_rule: rule, minutes: 60 },
			...{ opens: now - 2 * day, closes: now - day, created: now, created_by: account, set: now }
		});
		for (const variant of [1, 2])
			for (const slot of [0, 1, 2]) {
				const item = {
					kind: 'drill',
					drill: 'water-sums',
					generator: 'expansion-volume',
					family: null,
					seed: 10 * variant + slot,
					packHash: null
				};
				insert(db, 'variant_item', { paper, variant, slot, content: JSON.stringify(item) });
			}
		const members = Array.from({ length: sitters }, (_, i) => {
			const member = randomUUID();
			const own = i === 0 ? { learner, joined: now - 50 * day, reference: 'C-1187' } : {};
			insert(db, 'member', { id: member, cohort, name: i === 0 ? name : `Sitter ${i}`, created: now - 50 * day, ...own });
			sat(db, paper, member, i, sitters, now - day);
			return member;
		});
		for (let ago = 40; ago > 0; ago--) practised(db, learner, ago % 3 ? 'drill/water-sums' : 'drill/gas-sums', now - ago * day);
		return { cohort, member: members[0]!, paper, handle };
	});
}

function sat(db: Driver.Database, paper: string, member: string, i: number, sitters: number, ended: number): void {
	const id = randomUUID();
	const times = { started: ended - 1_800_000, deadline: ended, ended, seen: ended, marked: ended, locked: i === 0 ? ended : null };
	insert(db, 'sitting', { id, paper, member, variant: 1 + (i % 2), number: 1, ended_by: 'handed-in', ...times });
	for (const slot of [0, 1, 2]) {
		const right = i === 0 || (3 * i) / sitters > slot + 0.4;
		const content = JSON.stringify({ kind: 'drill', right, seconds: 40, said: ['12 l'], answer: ['12 l'] });
		insert(db, 'item_mark', { sitting: id, slot, content, got: right ? 10 : 0, out_of: 10, at: ended });
	}
}

function practised(db: Driver.Database, learner: string, skill: string, at: number): void {
	const drill = randomUUID();
	insert(db, 'drill', { id: drill, learner, generator: 'expansion-volume', seed: 1, created: at - 60_000, answer: '{}', answered: at });
	insert(db, 'review', { learner, skill, at, recall: 'sound', minutes: 1, drill });
}

/** Makes an account an owner, beside whoever else is one. */
export function makeOwner(name: string): void {
	inDatabase((db) => db.prepare("update learner set role = 'owner' where name = ?").run(name));
}

/** A statement that no store took. @returns its id */
export function refusedStatement(problem: string): string {
	const id = randomUUID();
	const row = { id, sitting: randomUUID(), statement: JSON.stringify({ id }), created: Date.now(), tries: 1, problem };
	inDatabase((db) => insert(db, 'outbox', row));
	return id;
}
