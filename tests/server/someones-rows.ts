/** Rows in every table that can hold any of a learner's, found in the database itself, so that a table made later is met too. */
import type { Database } from '$lib/server/database/open.ts';

interface Column {
	readonly name: string;
	readonly type: string;
	readonly pk: number;
}

const columnsOf = ({ $client }: Database, table: string) => $client.pragma(`table_info(${table})`) as Column[];
const keysOf = ({ $client }: Database, table: string) => $client.pragma(`foreign_key_list(${table})`) as { from: string; table: string }[];

export function tablesIn({ $client }: Database): string[] {
	const names = $client.prepare("select name from sqlite_master where type = 'table'").pluck().all() as string[];
	return names.filter((name) => !name.startsWith('sqlite_') && !name.startsWith('__'));
}

/** Every table whose rows are some learner's, by what they point at; one comes after those that it points at. */
export function tablesOfLearners(db: Database): string[] {
	const found = ['learner'];
	const left = new Set(tablesIn(db).filter((name) => name !== 'learner'));
	const next = () =>
		[...left].find((table) => {
			const others = keysOf(db, table).map((key) => key.table);
			return others.some((one) => found.includes(one)) && others.every((one) => found.includes(one) || !leadsToLearner(db, one));
		});
	for (let table = next(); table !== undefined; table = next()) {
		left.delete(table);
		found.push(table);
	}
	return found;
}

const leadsToLearner = (db: Database, table: string): boolean => leadsTo(db, table, 'learner');

function leadsTo(db: Database, table: string, to: string): boolean {
	return table === to || keysOf(db, table).some((key) => leadsTo(db, key.table, to));
}

/** Those of them that have nothing to do with a cohort: registers and papers stay when a learner goes. */
export const tablesOfPractice = (db: Database): string[] => tablesOfLearners(db).filter((table) => !leadsTo(db, table, 'cohort'));

/** How many rows stand in each table. */
export function countRows(db: Database): Record<string, number> {
	return Object.fromEntries(tablesIn(db).map((table) => [table, rowsOf(db, table).length]));
}

export function rowsOf({ $client }: Database, table: string): object[] {
	return $client.prepare(`select * from "${table}"`).all() as object[];
}

/** One more row in each table of practice but `learner` itself, all of this learner. Texts are JSON and hold the mark. */
export function fillAllTables(db: Database, learnerId: string, mark: string): void {
	const ids = new Map<string, unknown>([['learner', learnerId]]);
	for (const table of tablesOfPractice(db).slice(1)) {
		for (const { table: other } of keysOf(db, table)) if (!ids.has(other)) ids.set(other, insert(db, other, ids, mark));
		ids.set(table, insert(db, table, ids, mark));
	}
}

/** @returns what another row points at this one by */
function insert(db: Database, table: string, ids: ReadonlyMap<string, unknown>, mark: string): unknown {
	const points = new Map(keysOf(db, table).map(({ from, table: other }) => [from, ids.get(other)]));
	const columns = columnsOf(db, table);
	const [key, ...more] = columns.filter(({ pk }) => pk > 0);
	const numbersItself = key?.type.toLowerCase() === 'integer' && more.length === 0;
	const row = columns
		.filter((column) => column !== key || !numbersItself)
		.map(({ name, type }) => [name, points.get(name) ?? (type.toLowerCase() === 'text' ? JSON.stringify(`${mark} ${name}`) : 1)] as const);
	const { lastInsertRowid } = db.$client
		.prepare(`insert into "${table}" (${row.map(([name]) => `"${name}"`).join()}) values (${row.map(() => '?').join()})`)
		.run(...row.map(([, value]) => value));
	return numbersItself ? lastInsertRowid : row.find(([name]) => name === key?.name)?.[1];
}
