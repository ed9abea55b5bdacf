import { expect, test, type Page } from '@playwright/test';
import { choose, ready, startCallout } from './bench';

const meaning = (page: Page) => page.getByRole('dialog', { name: 'diverter motor' });
const term = (page: Page) => page.locator('#place').getByRole('button', { name: 'Diverter motor', exact: true });

test('a term is opened by Enter and shut by Escape, and the focus comes back', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await choose(page, 'Diverter motor');
	await term(page).hover();
	await expect(meaning(page)).toBeHidden();
	await term(page).focus();
	await page.keyboard.press('Enter');
	await expect(meaning(page)).toBeVisible();
	await expect(meaning(page)).toContainText('A small motor');
	await expect(meaning(page).getByRole('button', { name: 'Shut' })).toBeFocused();
	await page.keyboard.press('Escape');
	await expect(meaning(page)).toBeHidden();
	await expect(term(page)).toBeFocused();
});

test.describe('by touch', () => {
	test.use({ hasTouch: true, viewport: { width: 360, height: 740 } });

	test('a term is opened by a tap, stands within the window and does not lie over its word', async ({ page }) => {
		await startCallout(page);
		await ready(page);
		await page.getByRole('button', { name: /^Diverter motor:/ }).tap();
		await term(page).tap();
		await expect(meaning(page)).toBeVisible();
		const [box, word] = [(await meaning(page).boundingBox())!, (await term(page).boundingBox())!];
		expect(box.x).toBeGreaterThanOrEqual(0);
		expect(box.x + box.width).toBeLessThanOrEqual(360);
		expect(box.y + box.height).toBeLessThanOrEqual(740);
		expect(box.y >= word.y + word.height || box.y + box.height <= word.y).toBe(true);
		await meaning(page).getByRole('button', { name: 'Shut' }).tap();
		await expect(meaning(page)).toBeHidden();
	});
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false });

	test('a term is opened all the same', async ({ page }) => {
		await startCallout(page);
		await choose(page, 'Diverter motor');
		await term(page).click();
		await expect(meaning(page)).toBeVisible();
	});
});

test('each term is marked once at a place', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await choose(page, 'Diverter');
	const said = await page.locator('#place .term').evaluateAll((all) => all.map((one) => one.getAttribute('popovertarget')));
	expect(said.length).toBeGreaterThan(0);
	expect(new Set(said).size).toBe(said.length);
});

test('all words stand on a page of their own', async ({ page }) => {
	await page.goto('/');
	await page.getByRole('link', { name: 'Words' }).click();
	await expect(page.getByRole('heading', { name: 'Words', level: 1 })).toBeVisible();
	expect(await page.getByRole('term').count()).toBeGreaterThanOrEqual(40);
});
