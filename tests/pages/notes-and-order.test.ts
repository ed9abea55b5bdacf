import { expect, test } from '@playwright/test';
import { choose, debriefed, debriefMs, leave, openTap, ready, startCallout, take } from './bench';

test('a note is stored as written, shown as text, kept over a refresh and told in the debrief', async ({ page }) => {
	test.setTimeout(debriefMs + 60_000);
	await startCallout(page);
	await ready(page);
	const text = 'Pump <b>hums</b> & "warm"';
	const field = page.getByLabel(/^Write a note/);
	await field.fill(`  ${text}  `);
	await page.getByRole('button', { name: 'Write it on the sheet' }).click();
	await expect(page.locator('.notes li')).toContainText(text);
	await expect(field).toHaveValue('');
	await expect(page.locator('.clock')).toContainText('0 min');
	await page.reload();
	await expect(page.locator('.notes li')).toContainText(text);
	await ready(page);
	await leave(page);
	await debriefed(page);
	await expect(page.getByRole('listitem').filter({ hasText: `Note: ${text}` })).toBeVisible();
});

test('readings are put in order by a plain control, and the order is remembered', async ({ page, context }) => {
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await choose(page, 'Hot tap');
	await take(page, 'Tap temperature');
	await expect(page.getByRole('rowheader', { name: 'Heat transfer' })).toBeHidden();
	await page.getByRole('link', { name: 'By what they concern' }).click();
	await expect(page.getByRole('rowheader', { name: 'Heat transfer' })).toBeVisible();
	// A page of its own says the same at once: the server knows.
	const other = await context.newPage();
	await other.goto(page.url());
	await expect(other.getByRole('rowheader', { name: 'Heat transfer' })).toBeVisible();
	await expect(other.getByRole('link', { name: 'By what they concern' })).toHaveAttribute('aria-current', 'true');
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false });

	test('the order is a link, a note a form, and both are remembered', async ({ page }) => {
		const address = await startCallout(page);
		await openTap(page);
		await page.getByRole('link', { name: 'By what they concern' }).click();
		await expect(page.getByRole('rowheader', { name: 'Control board, wiring and supply' })).toBeVisible();
		await page.goto(address);
		await expect(page.getByRole('rowheader', { name: 'Control board, wiring and supply' })).toBeVisible();
		await page.getByLabel(/^Write a note/).fill('two\nlines');
		await page.getByRole('button', { name: 'Write it on the sheet' }).click();
		await expect(page.locator('.notes li')).toContainText('lines');
	});
});
