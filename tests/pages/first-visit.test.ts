import { expect, test, type Page } from '@playwright/test';
import { ready, set, startCallout } from './bench';

const tour = (page: Page) => page.getByRole('complementary', { name: 'First visit' });

for (const width of [360, 1440]) {
	test(`at ${width} the tour has three steps, and none lies over what it explains`, async ({ page }) => {
		await page.setViewportSize({ width, height: 740 });
		await startCallout(page);
		await ready(page);
		for (const step of [1, 2, 3]) {
			await expect(tour(page)).toContainText(`${step} of 3`);
			const { over, shown } = await page.evaluate(() => {
				const [a, b] = ['aside[aria-label="First visit"]', '.toured'].map((one) => document.querySelector(one)!.getBoundingClientRect());
				return { over: a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom, shown: b.width > 0 && b.height > 0 };
			});
			expect(shown).toBe(true);
			expect(over).toBe(false);
			await tour(page)
				.getByRole('button', { name: step < 3 ? 'Next' : 'Done' })
				.click();
		}
		await expect(tour(page)).toBeHidden();
		await expect(page.locator('.toured')).toHaveCount(0);
	});
}

test('it can be skipped by keyboard, does not come back by itself, and comes when it is asked for', async ({ page }) => {
	const address = await startCallout(page);
	await ready(page);
	await tour(page).getByRole('button', { name: 'Skip' }).press('Enter');
	await expect(tour(page)).toBeHidden();
	await page.reload();
	await ready(page);
	await expect(tour(page)).toHaveCount(0);
	await startCallout(page);
	await expect(tour(page)).toHaveCount(0);
	await set(page, /^Show me round again/);
	await page.goto(address);
	await expect(tour(page)).toBeVisible();
});

test('left unread it does not come back either', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await expect(tour(page)).toBeVisible();
	await page.reload();
	await ready(page);
	await expect(tour(page)).toHaveCount(0);
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false });

	test('it is not there', async ({ page }) => {
		await startCallout(page);
		await expect(tour(page)).toBeHidden();
	});
});
