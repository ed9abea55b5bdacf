/** What an assessor does to a paper until it is set, for the page tests. */
import { expect, type Page } from '@playwright/test';
import { debriefMs } from './bench';

/** Variants are drawn after the evidence tables, which a new server makes first. */
export const drawnMs = debriefMs + 120_000;

/** @returns the cohort's path */
export async function makeCohort(page: Page, name = 'Tuesday group'): Promise<string> {
	await page.goto('/cohorts');
	await page.getByLabel('Name of a new cohort').fill(name);
	await page.getByRole('button', { name: 'Make the cohort' }).click();
	await page.waitForURL(/\/cohorts\/[\w-]+\/register$/);
	return new URL(page.url()).pathname.replace(/\/register$/, '');
}

/** Makes a paper of one callout and two sums, which is soon drawn. @returns its path, with the page on it as a draft */
export async function makePaper(page: Page, cohort: string): Promise<string> {
	await page.goto(`${cohort}/papers/new`);
	const main = page.getByRole('main');
	for (const field of await main.locator('input[name^="callout/"], input[name^="drill/"]').all())
		if ((await field.inputValue()) !== '') await field.fill('');
	await main.locator('input[name$="/sensing"]').first().fill('1');
	await main.getByRole('spinbutton', { name: 'Sums of water, drills' }).fill('2');
	await main.getByLabel('Callouts to be cured').fill('1');
	await main.getByRole('button', { name: 'Make this paper' }).click();
	await page.waitForURL(/\/papers\/[\w-]{36}$/);
	return new URL(page.url()).pathname;
}

export const setButton = (page: Page) => page.getByRole('button', { name: 'Set this paper' });

export async function drawn(page: Page): Promise<void> {
	await expect(setButton(page)).toBeEnabled({ timeout: drawnMs });
}

export async function setPaper(page: Page): Promise<void> {
	await setButton(page).click();
	await expect(page.getByRole('heading', { name: 'Who has sat' })).toBeVisible();
}
