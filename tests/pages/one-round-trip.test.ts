import { expect, test } from '@playwright/test';
import { openTap, ready, startCallout } from './bench';

test('an action is one request, and its answer is the callout as it then stands', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	const asked: string[] = [];
	page.on('request', (request) => asked.push(`${request.method()} ${new URL(request.url()).search}`));
	await openTap(page);
	await expect(page.locator('.clock')).not.toContainText('0 min£0');
	await expect(page.locator('#sheet table')).toContainText('Noticed');
	expect(asked).toEqual(['POST ?/act']);
});

test('offline an action is held back, nothing typed is lost, and it goes through when it is sent again', async ({ page, context }) => {
	await startCallout(page);
	await ready(page);
	const field = page.getByLabel(/^Write a note/);
	await field.fill('Typed in the cellar.');
	await context.setOffline(true);
	await expect(page.getByRole('status').filter({ hasText: 'Offline.' })).toBeVisible();
	await page.getByRole('button', { name: 'Write it on the sheet' }).click();
	await expect(page.locator('.slip:visible')).toContainText('Not sent.');
	await expect(field).toHaveValue('Typed in the cellar.');
	await context.setOffline(false);
	await expect(page.getByRole('status').filter({ hasText: 'Offline.' })).toBeHidden();
	await page.locator('.slip:visible').getByRole('button', { name: 'Send it again' }).click();
	await expect(page.locator('.notes li')).toHaveText(/Typed in the cellar\./);
	await expect(field).toHaveValue('');
});

test('an answer lost on the way is asked for again and nothing is done twice', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	// The server does it; the page never hears of it.
	await page.route(
		/\?\/act/,
		async (route) => {
			await route.fetch();
			await route.abort('connectionreset');
		},
		{ times: 1 }
	);
	await page.getByRole('radio', { name: /^Tap complained of/ }).check();
	await page.getByRole('button', { name: /^Run it so/ }).click();
	await expect(page.locator('.slip:visible')).toContainText('Not sent.');
	await page.locator('.slip:visible').getByRole('button', { name: 'Send it again' }).click();
	await expect(page.locator('.slip:visible')).toContainText('Demand: Tap complained of');
	await page.getByText('All that was done').click();
	await expect(page.locator('#sheet ol > li')).toHaveCount(1);
});

test('an action that takes long shows that it is being worked out', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	let go = () => {};
	const held = new Promise<void>((resolve) => (go = resolve));
	await page.route(/\?\/act/, async (route) => {
		await held;
		await route.continue();
	});
	await page.getByRole('radio', { name: /^Tap complained of/ }).check();
	await page.getByRole('button', { name: /^Run it so/ }).click();
	await expect(page.getByRole('progressbar', { name: 'Working it out' })).toBeVisible();
	go();
	await expect(page.locator('.slip:visible')).toContainText('Demand: Tap complained of');
	await expect(page.getByRole('progressbar', { name: 'Working it out' })).toHaveCount(0);
});
