import { expect, test } from '@playwright/test';
import { openTap, ready, startCallout } from './bench';

test('on paper the sheet stands without controls, with the caution and the rules in force as the foot of each page', async ({ page }) => {
	await page.setViewportSize({ width: 700, height: 900 });
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByRole('table', { name: /^Readings so far/ })).toBeVisible();
	await expect(page.getByText('All that was done')).toBeVisible();
	await expect(page.locator('#sheet ol')).toContainText('Demand: Tap complained of');
	await expect(page.getByRole('button')).toHaveCount(0);
	const foot = page.getByRole('contentinfo');
	await expect(foot).toContainText('Rules in force here: United Kingdom');
	await expect(foot).toHaveCSS('display', 'table-footer-group');
});
