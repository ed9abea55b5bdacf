/** What a person does on the bench, for the page tests. */
import { expect, type Page } from '@playwright/test';

/** The table of evidence is made for the first debrief of a server; two busy cores take their time. */
export const debriefMs = 240_000;

export async function startCallout(page: Page): Promise<string> {
	await page.goto('/');
	await page.getByRole('button', { name: /^Start (a|another) callout/ }).click();
	await page.waitForURL(/\/callout\/[\w-]+$/);
	await expect(page.getByRole('button', { name: /^Hot tap:/ })).toBeVisible();
	return page.url();
}

/** Waits until scripts have taken over, where they run at all. */
export async function ready(page: Page): Promise<void> {
	await expect(page.locator('.bench.scripted')).toBeVisible();
}

export async function openTap(page: Page): Promise<void> {
	await page.getByRole('radio', { name: /^Tap complained of/ }).check();
	await page.getByRole('button', { name: /^Run it so/ }).click();
	await expect(page.locator('.slip:visible')).toContainText('Demand: Tap complained of');
}

export async function choose(page: Page, place: string): Promise<void> {
	await page.getByRole('button', { name: new RegExp(`^${place}:`) }).click();
	await expect(page.getByRole('heading', { name: place, level: 2 })).toBeVisible();
}

export async function take(page: Page, check: string): Promise<void> {
	await page.getByRole('button', { name: new RegExp(`: ${check} `) }).click();
	await expect(page.locator('.slip:visible')).toContainText(check);
}

export async function leave(page: Page): Promise<void> {
	await page.getByText('Tell the customer and leave').click();
	await page.getByRole('checkbox', { name: /^I am done here/ }).check();
	await page.getByRole('button', { name: /^Leave \d+ min$/ }).click();
	await page.waitForURL(/\/debrief$/);
}

export async function debriefed(page: Page): Promise<void> {
	await expect(page.getByRole('heading', { name: 'The bill' })).toBeVisible({ timeout: debriefMs });
}

/** Takes a check that needs the water off with the water on: a breach that stops the work and not the visit. */
export async function breach(page: Page): Promise<void> {
	await choose(page, 'Inlet filter');
	await page.getByRole('button', { name: /: Inlet filter / }).click();
	await expect(page.locator('.slip:visible')).toContainText('Stopped');
}

/** Asks to prove the repair with the casing off: refused, nothing stored. */
export async function beRefused(page: Page): Promise<void> {
	await page.getByText('Make safe and open up').click();
	await page.getByRole('button', { name: /^Do ?: Take the casing off/ }).click();
	await expect(page.locator('.slip:visible')).toContainText('Take the casing off');
	await page.getByRole('button', { name: /^Prove it/ }).click();
	await expect(page.locator('.slip:visible')).toContainText('Not done.');
}

/** Chooses settings for this browser, by the names on the settings page; all others are off. */
export async function set(page: Page, ...names: readonly RegExp[]): Promise<void> {
	await page.goto('/settings');
	for (const box of await page.getByRole('main').getByRole('checkbox').all()) await box.uncheck();
	for (const name of names) await page.getByRole('checkbox', { name }).check();
	await page.getByRole('button', { name: 'Keep these' }).click();
	await expect(page.getByRole('status').filter({ hasText: 'Kept.' })).toBeVisible();
}

/** Writes down that all faults but one are still in. */
export async function judge(page: Page): Promise<void> {
	await page.getByText('Which faults are still in', { exact: true }).click();
	await page.getByRole('checkbox', { name: 'Pump seized' }).uncheck();
	await page.getByRole('button', { name: 'Write this down' }).click();
	await expect(page.locator('.slip:visible')).toContainText('faults still in');
}
