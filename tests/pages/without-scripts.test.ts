import { expect, test } from '@playwright/test';
import { choose, debriefed, debriefMs, leave, openTap, startCallout, take } from './bench';

test.use({ javaScriptEnabled: false });

test('a whole callout without scripts, to the debrief', async ({ page }) => {
	test.setTimeout(debriefMs + 60_000);
	await startCallout(page);
	await openTap(page);
	await choose(page, 'Hot tap');
	await take(page, 'Tap temperature');
	await expect(page.getByRole('heading', { name: 'Hot tap', level: 2 })).toBeVisible();
	await expect(page.getByRole('table', { name: /^Readings so far/ })).toContainText('Tap temperature');
	await page.getByRole('button', { name: /^Prove it/ }).click();
	await expect(page.locator('.slip:visible')).toContainText('Proved the repair');
	await leave(page);
	await debriefed(page);
	await expect(page.getByRole('heading', { name: 'Two ways to the same fault' })).toBeVisible();
});
