import { expect, test } from '@playwright/test';
import { choose, openTap, ready, startCallout, take } from './bench';

test('a refresh in the middle and a closed tab lose nothing', async ({ page, context }) => {
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await choose(page, 'Hot tap');
	await take(page, 'Tap temperature');
	const readings = await page.locator('#sheet tbody').innerText();
	const clock = await page.locator('.clock').innerText();
	expect(readings).toContain('Tap temperature');

	await page.reload();
	await ready(page);
	expect(await page.locator('#sheet tbody').innerText()).toBe(readings);
	expect(await page.locator('.clock').innerText()).toBe(clock);
	await expect(page.getByRole('heading', { name: 'Hot tap', level: 2 })).toBeVisible();

	const address = page.url();
	await page.close();
	const again = await context.newPage();
	await again.goto(address);
	expect(await again.locator('#sheet tbody').innerText()).toBe(readings);
});

test('a page left behind by another tab does nothing twice and says so', async ({ page, context }) => {
	const address = await startCallout(page);
	await ready(page);
	const other = await context.newPage();
	await other.goto(address);
	await ready(other);
	await openTap(page);
	await choose(other, 'Customer');
	await other
		.getByRole('button', { name: /^Ask ?: / })
		.first()
		.click();
	await expect(other.locator('.slip:visible')).toContainText('moved on in another tab');
	await expect(other.locator('#sheet tbody')).toHaveText((await page.locator('#sheet tbody').textContent())!);
});
