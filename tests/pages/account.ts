/** Accounts, for the page tests. */
import { createHash, randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { expect, type Page } from '@playwright/test';
import Driver from 'better-sqlite3';

export const password = 'two short planks';

export async function signUp(page: Page, name: string): Promise<void> {
	await page.goto('/sign-up');
	await page.getByLabel('Name').fill(name);
	await page.getByLabel('Password').fill(password);
	await page.getByRole('button', { name: 'Sign up' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(name);
}

/** The path of a link that would make an owner, put beside the one that the server under test has printed. */
export function ownerPath(): string {
	const secret = randomBytes(32).toString('base64url');
	const db = new Driver(join(process.env.PROVEWELL_TEST_DATA!, 'provewell.sqlite'), { timeout: 5000 });
	db.prepare('insert into owner_link (secret, created) values (?, ?)').run(createHash('sha256').update(secret).digest('hex'), Date.now());
	db.close();
	return `/owner/${secret}`;
}
