import { expect, test } from '@playwright/test';
import { choose, debriefMs, judge, openTap, ready, set, startCallout, take } from './bench';

test('the band of a sound appliance is shown after a judgement only, and only where it is asked for', async ({ page }) => {
	test.setTimeout(debriefMs + 60_000);
	await set(page, /^Show the band/);
	const address = await startCallout(page);
	await ready(page);
	await openTap(page);
	await choose(page, 'Hot tap');
	await take(page, 'Tap temperature');
	const sheet = page.locator('#sheet table');
	await expect(page.locator('#sheet')).toContainText('once you have written down which faults are still in');
	await expect(sheet).not.toContainText('sound:');
	await judge(page);
	await expect(async () => {
		await page.reload();
		await expect(sheet.getByRole('row', { name: /Tap temperature/ })).toContainText(/(below|within|above) sound: [\d.]+ to [\d.]+\s°C/, {
			timeout: 2000
		});
	}).toPass({ timeout: debriefMs });
	await ready(page);
	const judged = await sheet.getByText('sound:').count();
	await take(page, 'Tap flow');
	await expect(sheet.getByRole('row', { name: /Tap flow/ })).not.toContainText('sound:');
	expect(await sheet.getByText('sound:').count()).toBe(judged);

	await set(page);
	await page.goto(address);
	await expect(sheet).toBeVisible();
	await expect(sheet).not.toContainText('sound:');
});
