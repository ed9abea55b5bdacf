/**
 * How often a password may be tried: by the name that is tried and by the address it comes from, within a sliding quarter of an hour.
 *
 * A try is counted before its password is looked at and taken back when it was right, so that a thousand at once are no way around. A
 * name is counted whether anybody bears it or not. The price of it: whoever knows a name can keep its owner from signing in anew, for as
 * long as they go on; browsers that are signed in stay so, and what is tried there is counted by the account and not by its name.
 */
import { and, desc, eq, gt, lte, sql } from 'drizzle-orm';
import { database } from '../database/open.ts';
import { failedSignIn } from '../database/schema.ts';
import { digestOf } from '../digest.ts';

const windowMs = 15 * 60_000;
/** A classroom behind one address mistypes now and then. */
export const mostTries = { name: 5, own: 5, address: 20 } as const;

export interface Tried {
	/** The name as it is compared; left out where no name is at stake. */
	readonly nameKey?: string;
	/** Id of the account that the browser is signed in to; left out where it is none. */
	readonly learnerId?: string;
	readonly address: string;
}

/** `says` where it may not be tried now; else what to call when the password was right. */
export type Counted = { readonly says: string; readonly forgive?: never } | { readonly forgive: () => void; readonly says?: never };

/** Counts a try. One that is turned away is not counted. */
export function countTry({ nameKey, learnerId, address }: Tried, now: number): Counted {
	const limits = [
		...(nameKey === undefined ? [] : [{ key: keyOfName(nameKey), most: mostTries.name }]),
		...(learnerId === undefined ? [] : [{ key: keyOfOwn(learnerId), most: mostTries.own }]),
		{ key: digestOf(`address:${networkOf(address)}`), most: mostTries.address }
	];
	const db = database();
	return db.transaction(
		(inside): Counted => {
			inside
				.delete(failedSignIn)
				.where(lte(failedSignIn.at, new Date(now - windowMs)))
				.run();
			const waitMs = Math.max(...limits.map(({ key, most }) => waitFor(key, most, now)));
			if (waitMs > 0) return { says: waitWords(waitMs) };
			const rows = limits.map(
				({ key }) =>
					inside
						.insert(failedSignIn)
						.values({ key, at: new Date(now) })
						.run().lastInsertRowid
			);
			const forgive = () => {
				if (nameKey !== undefined) forget(keyOfName(nameKey));
				if (learnerId !== undefined) forget(keyOfOwn(learnerId));
				// Others' failures from the same address stay counted.
				const own = sql`rowid = ${rows.at(-1)} and ${failedSignIn.key} = ${limits.at(-1)!.key}`;
				db.delete(failedSignIn).where(own).run();
			};
			return { forgive };
		},
		{ behavior: 'immediate' }
	);
}

/** Forgets the tries at an account that is gone. */
export function forgetTries({ nameKey, learnerId }: Required<Pick<Tried, 'nameKey' | 'learnerId'>>): void {
	forget(keyOfName(nameKey));
	forget(keyOfOwn(learnerId));
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
