/** Assessors, for the page tests. */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import Driver from 'better-sqlite3';
import { signUp } from './account';

/**
 * Signs this page's browser up and makes the account an assessor, in the database file of the server under test: whoever owns a server
 * says who is one, and a server has one owner.
 * @returns the account's name
 */
export async function signUpAssessor(page: Page, name = `Assessor ${randomBytes(4).toString('hex')}`): Promise<string> {
	await signUp(page, name);
	const db = new Driver(join(process.env.PROVEWELL_TEST_DATA!, 'provewell.sqlite'), { timeout: 5000 });
	const { changes } = db.prepare("update learner set role = 'assessor' where name = ?").run(name);
	db.close();
	if (changes !== 1) throw new Error(`no account "${name}" was made an assessor`);
	// What the navigation offers follows from the role.
	await page.reload();
	return name;
}
