import { expect, test } from '@playwright/test';
import { answer, askFor } from './drill';

test.use({ viewport: { width: 360, height: 740 } });

test('a drill answered is seen in the map, by week, and in the files', async ({ page }) => {
	await page.goto('/progress');
	await expect(page.getByRole('main')).toContainText('Nothing has been practised yet');
	await askFor(page, 'figure');
	await answer(page);
	await page.getByRole('navigation', { name: 'Site' }).getByRole('link', { name: 'Progress' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Progress');
	const drills = page.getByRole('table', { name: 'Recall of the kinds of drill' });
	const row = drills.getByRole('row').filter({ has: page.getByRole('rowheader', { name: 'Sums of water' }) });
	await expect(row.getByRole('cell')).toContainText(/100.%/);
	await expect(row.getByRole('cell')).toContainText(/in 7 days.*\d+, in 30 days.*\d+/);
	await expect(drills.getByText('untried')).toHaveCount((await drills.getByRole('rowheader').count()) - 1);
	await page.getByText('The same as a table').first().click();
	await expect(page.getByRole('table', { name: 'Minutes of practice by week' }).getByRole('row')).toHaveCount(2);

	const [download] = await Promise.all([
		page.waitForEvent('download'),
		page.getByRole('link', { name: 'Every skill shown, and how' }).click()
	]);
	expect(download.suggestedFilename()).toBe('provewell-reviews.csv');
	const file = await page.request.get('/progress/reviews.csv');
	expect(file.headers()['content-type']).toMatch(/^text\/csv/);
	expect((await file.text()).trim().split('\r\n')).toHaveLength(2);
	expect((await page.request.get('/progress/secrets.csv')).status()).toBe(404);
});

test('the recall at which practice comes back is set, with its price', async ({ page }) => {
	await askFor(page, 'figure');
	await answer(page);
	await page.goto('/settings');
	await page.getByRole('link', { name: 'When practice comes back, and what it costs' }).click();
	await expect(page.getByRole('radio', { name: /^85/ })).toBeChecked();
	const minutes = page
		.getByRole('row')
		.filter({ has: page.getByRole('radio', { name: /^97/ }) })
		.getByRole('cell')
		.first();
	await expect(minutes).toHaveText(/^\d+\.\d$/);
	await page.getByRole('radio', { name: /^90/ }).check();
	await page.getByRole('button', { name: 'Keep this' }).click();
	await expect(page.getByRole('main').getByRole('status')).toHaveText('Kept.');
	await page.reload();
	await expect(page.getByRole('radio', { name: /^90/ })).toBeChecked();
	await expect(page.getByRole('region', { name: 'The memory model' })).toContainText('as it was published, fitted to nobody here');
});

test('a calendar of due nights is followed at a secret address, and ended', async ({ page }) => {
	await askFor(page, 'figure');
	await answer(page);
	await page.goto('/settings/reminders');
	await page.getByRole('button', { name: 'Make an address' }).click();
	const address = await page.getByRole('textbox').inputValue();
	// A calendar program has no cookie.
	const follow = () => fetch(address);
	const followed = await follow();
	expect(followed.headers.get('content-type')).toMatch(/^text\/calendar/);
	expect(await followed.text()).toContain('SUMMARY:Round due: 1 skill');
	// Loaded again it is there still, and holds; nothing else can be read off the server later.
	await page.reload();
	await expect(page.getByRole('textbox')).toHaveValue(address);
	expect((await follow()).status).toBe(200);
	await expect(page.getByRole('link', { name: 'Open it in your calendar' })).toHaveAttribute('href', address.replace(/^http:/, 'webcal:'));
	await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
	await page.getByRole('button', { name: 'Copy the address' }).click();
	await expect(page.getByRole('status').filter({ hasText: 'Copied.' })).toBeVisible();
	expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(address);
	await page.context().clearCookies({ name: 'provewell-new-address' });
	await page.reload();
	await expect(page.getByRole('textbox')).toHaveCount(0);
	await page.getByRole('button', { name: 'End the reminders' }).click();
	await expect(page.getByRole('main').getByRole('status')).toContainText('No calendar is kept for you');
	expect((await follow()).status).toBe(404);
});
