import { expect, test } from '@playwright/test';

test('a guest is at the appliance one click after the first page, without an account', async ({ page }) => {
	await page.goto('/');
	await expect(page.getByText('It does not license anyone').first()).toBeVisible();
	await page.getByRole('button', { name: 'Start a callout' }).click();
	await page.waitForURL(/\/callout\/[\w-]+$/);
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^“.+”$/);
	await expect(page.getByRole('button', { name: /^Pump:/ })).toBeVisible();
	await expect(page.getByRole('contentinfo')).toContainText('It does not license anyone');
});

test('a callout of somebody else is not there', async ({ page, browser }) => {
	await page.goto('/');
	await page.getByRole('button', { name: 'Start a callout' }).click();
	await page.waitForURL(/\/callout\//);
	const stranger = await browser.newContext();
	const answer = await stranger.request.get(page.url());
	expect(answer.status()).toBe(404);
	await stranger.close();
});

test('the callouts of a browser are listed, running ones with their complaint', async ({ page }) => {
	await page.goto('/callouts');
	await expect(page.getByText('None yet.')).toBeVisible();
	await page.getByRole('button', { name: 'Start a callout' }).click();
	const complaint = (await page.getByRole('heading', { level: 1 }).innerText()).replace(/[“”]/g, '');
	await page.goto('/callouts');
	await expect(page.getByRole('listitem').filter({ hasText: 'Running' })).toContainText(complaint);
});
