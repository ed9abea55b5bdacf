import { expect, test } from '@playwright/test';
import { openTap, ready, set, startCallout } from './bench';

test('the parts of the callout page have their roles and names', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await expect(page.getByRole('main')).toHaveCount(1);
	await expect(page.getByRole('heading', { level: 1 })).toHaveCount(1);
	for (const name of ['Site', 'Places']) await expect(page.getByRole('navigation', { name, exact: true })).toBeVisible();
	await expect(page.getByRole('group', { name: 'What the appliance is asked for' }).getByRole('radio')).toHaveCount(5);
	await expect(page.getByRole('region', { name: 'Job sheet' })).toBeVisible();
	await expect(page.getByRole('table', { name: /^Readings so far/ })).toBeVisible();
	for (const name of ['Min', 'What', 'At', 'Reading']) await expect(page.getByRole('columnheader', { name, exact: true })).toBeVisible();
	await expect(page.getByRole('textbox', { name: /^Write a note/ })).toBeVisible();
	await expect(page.getByRole('contentinfo')).toContainText('Rules in force here: United Kingdom');
	// Every place is a button that says what is to be had there.
	const places = await page.getByRole('button', { name: /: \d+ checks?/ }).count();
	expect(places).toBeGreaterThanOrEqual(30);
	await page.getByRole('link', { name: 'Van' }).click();
	await expect(page.getByRole('region', { name: 'Van' }).getByRole('heading', { name: 'Parts', exact: true })).toBeVisible();
});

test('every control on the callout page has a name of its own kind', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	for (const details of await page.locator('details').all()) await details.evaluate((one: HTMLDetailsElement) => (one.open = true));
	const snapshot = await page.locator('body').ariaSnapshot();
	const unnamed = snapshot
		.split('\n')
		.filter((line) => /^\s*- '?(button|link|textbox|checkbox|radio|slider|combobox)(:? *$| \[)/.test(line));
	expect(unnamed).toEqual([]);
	expect(snapshot.split('\n').filter((line) => /- '?button "/.test(line)).length).toBeGreaterThan(40);
});

test('settings are said with what they do, and kept', async ({ page }) => {
	await set(page, /^I set the instrument myself/);
	await expect(page.getByRole('checkbox', { name: 'I set the instrument myself' })).toBeChecked();
	await expect(page.getByRole('checkbox', { name: 'I set the instrument myself' })).toHaveAccessibleDescription(/Range and terminals/);
	expect((await page.context().cookies()).find(({ name }) => name === 'provewell-own-settings')?.value).toBe('1');
	await set(page, /^More contrast/);
	const ground = await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
	expect(ground).toBe('rgb(255, 255, 255)');
	expect((await page.context().cookies()).find(({ name }) => name === 'provewell-own-settings')?.value).toBe('0');
});
