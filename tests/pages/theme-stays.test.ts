import { expect, test } from '@playwright/test';

test('slate chosen by hand stays over pages and visits, whatever the system says', async ({ page }) => {
	const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
	await page.emulateMedia({ colorScheme: 'light' });
	await page.goto('/families');
	const light = await paper();
	await page.getByRole('button', { name: 'Slate' }).click();
	await expect(page).toHaveURL(/\/families$/);
	await expect(page.getByRole('button', { name: 'Slate' })).toHaveAttribute('aria-pressed', 'true');
	const dark = await paper();
	expect(dark).not.toBe(light);
	await page.goto('/callouts');
	expect(await paper()).toBe(dark);
	await page.getByRole('button', { name: 'Paper' }).click();
	await expect(page.getByRole('button', { name: 'Paper' })).toHaveAttribute('aria-pressed', 'true');
	expect(await paper()).toBe(light);
});
