/**
 * How often a password may be tried: by the name that is tried and by the address it comes from, within a sliding quarter of an hour.
 *
 * A try is counted before its password is looked at and taken back when it was right, so that a thousand at once are no way around. A
 * name is counted whether anybody bears it or not. The price of it: whoever knows a name can keep its owner from signing in anew, for as
 * long as they go on; browsers that are signed in stay so, and what is tried there is counted by the account and not by its name.
 *
 * Codes of invitations and names of colleagues are counted apart, so that wrong ones keep nobody from signing in.
 */
import { and, desc, eq, gt, lte, sql } from 'drizzle-orm';
import { database } from '../database/open.ts';
import { failedSignIn } from '../database/schema.ts';
import { digestOf } from '../digest.ts';

const windowMs = 15 * 60_000;
/** A classroom behind one address mistypes now and then. */
export const mostTries = { name: 5, own: 5, address: 20 } as const;
/** A whole classroom looks its codes up behind one address; whoever has a session is known by that. */
export const mostLookUps = { own: 20, address: 300 } as const;

export interface Tried {
	/** The name as it is compared; left out where no name is at stake. */
	readonly nameKey?: string;
	/** Id of the account that the browser is signed in to; left out where it is none. */
	readonly learnerId?: string;
	readonly address: string;
}

/** `says` where it may not be tried now; else what to call when the password was right. */
export type Counted = { readonly says: string; readonly forgive?: never } | { readonly forgive: () => void; readonly says?: never };

/** Counts a try of a password. One that is turned away is not counted. */
export function countTry({ nameKey, learnerId, address }: Tried, now: number): Counted {
	const limits = [
		...(nameKey === undefined ? [] : [{ key: keyOfName(nameKey), most: mostTries.name }]),
		...(learnerId === undefined ? [] : [{ key: keyOfOwn(learnerId), most: mostTries.own }]),
		{ key: digestOf(`address:${networkOf(address)}`), most: mostTries.address }
	];
	const counted = count(limits, now);
	if (counted.says !== undefined) return counted;
	const forgive = () => {
		if (nameKey !== undefined) forget(keyOfName(nameKey));
		if (learnerId !== undefined) forget(keyOfOwn(learnerId));
		// Others' failures from the same address stay counted.
		takeBack(counted.rows.slice(-1));
	};
	return { forgive };
}

/**
 * Counts a look for something by a code or a name. One that is found is taken back, and no other: whoever holds a right code guesses no more
 * than anybody else.
 * @param of.learnerId  of the account or the guest whose browser it is; left out for a visitor
 */
export function countLookUp(
	{ learnerId, address }: { readonly learnerId?: string | undefined; readonly address: string },
	now: number
): Counted {
	const limits = [
		...(learnerId === undefined ? [] : [{ key: keyOfLooker(learnerId), most: mostLookUps.own }]),
		{ key: digestOf(`looks from:${networkOf(address)}`), most: mostLookUps.address }
	];
	const counted = count(limits, now);
	return counted.says !== undefined ? counted : { forgive: () => takeBack(counted.rows) };
}

interface Limit {
	readonly key: string;
	readonly most: number;
}
interface Row {
	readonly key: string;
	readonly rowid: number | bigint;
}

function count(
	limits: readonly Limit[],
	now: number
): { readonly says: string } | { readonly rows: readonly Row[]; readonly says?: never } {
	return database().transaction(
		(inside) => {
			inside
				.delete(failedSignIn)
				.where(lte(failedSignIn.at, new Date(now - windowMs)))
				.run();
			const waitMs = Math.max(...limits.map(({ key, most }) => waitFor(key, most, now)));
			if (waitMs > 0) return { says: waitWords(waitMs) };
			const rows = limits.map(({ key }) => {
				const row = { key, at: new Date(now) };
				return { key, rowid: inside.insert(failedSignIn).values(row).run().lastInsertRowid };
			});
			return { rows };
		},
		{ behavior: 'immediate' }
	);
}

function takeBack(rows: readonly Row[]): void {
	for (const { key, rowid } of rows)
		database()
			.delete(failedSignIn)
			.where(sql`rowid = ${rowid} and ${failedSignIn.key} = ${key}`)
			.run();
}

/** Forgets the tries at an account that is gone. */
export function forgetTries({ nameKey, learnerId }: Required<Pick<Tried, 'nameKey' | 'learnerId'>>): void {
	forget(keyOfName(nameKey));
	forget(keyOfOwn(learnerId));
	forget(keyOfLooker(learnerId));
}

function forget(key: string): void {
	database().delete(failedSignIn).where(eq(failedSignIn.key, key)).run();
}

/** @returns time until fewer than `most` tries stand in the window [ms], 0 where that is so already */
function waitFor(key: string, most: number, now: number): number {
	const tries = database()
		.select({ at: failedSignIn.at })
		.from(failedSignIn)
		.where(and(eq(failedSignIn.key, key), gt(failedSignIn.at, new Date(now - windowMs))))
		.orderBy(desc(failedSignIn.at))
		.limit(most)
		.all();
	return tries.length < most ? 0 : tries.at(-1)!.at.getTime() + windowMs - now;
}

function waitWords(ms: number): string {
	const minutes = Math.max(1, Math.ceil(ms / 60_000));
	return `Too many tries. Try again in ${minutes} ${minutes === 1 ? 'minute' : 'minutes'}.`;
}

const keyOfName = (nameKey: string) => digestOf(`name:${nameKey}`);
const keyOfLooker = (learnerId: string) => digestOf(`looks by:${learnerId}`);
const keyOfOwn = (learnerId: string) => digestOf(`own:${learnerId}`);

/** What one party is given by its provider: an address of IPv4, or the first four groups of one of IPv6. */
function networkOf(address: string): string {
	const inner = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
	if (inner !== undefined || !address.includes(':')) return inner ?? address;
	const [head = '', tail] = address.split('%')[0]!.toLowerCase().split('::');
	const before = head === '' ? [] : head.split(':');
	const after = tail ? tail.split(':') : [];
	const between = tail === undefined ? 0 : 8 - before.length - after.length;
	return [...before, ...Array<string>(Math.max(0, between)).fill('0'), ...after]
		.slice(0, 4)
		.map((group) => group.replace(/^0+(?=.)/, ''))
		.join(':');
}
