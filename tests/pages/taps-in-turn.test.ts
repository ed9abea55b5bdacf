import { expect, test, type Page } from '@playwright/test';
import { ready, startCallout } from './bench';

test.use({ viewport: { width: 360, height: 740 } });

const steps = ['Isolate the electricity', 'Prove dead', 'Take the casing off', 'Isolate the gas', 'Isolate the water'];
const doIt = (page: Page, step: string) => page.getByRole('button', { name: new RegExp(`^Do ?: ${step}`) });

test.beforeEach(async ({ page, baseURL }) => {
	await page.context().addCookies([{ name: 'provewell-toured', value: '1', url: baseURL! }]);
	await startCallout(page);
	await ready(page);
	await page
		.getByRole('navigation', { name: 'Places' })
		.getByRole('link', { name: /^Sheet/ })
		.click();
	await page.getByText('Make safe and open up').click();
	await page.route(/\?\/act/, async (route) => {
		await new Promise((resolve) => setTimeout(resolve, 1200));
		await route.continue();
	});
});

test('what is tapped faster than it is answered is all done, in the order in which it was tapped', async ({ page }) => {
	const seqs: (string | null)[] = [];
	page.on('request', (request) => request.method() === 'POST' && seqs.push(new URLSearchParams(request.postData() ?? '').get('seq')));
	for (const step of steps) {
		await doIt(page, step).click();
		await page.waitForTimeout(300);
	}
	await expect(page.getByRole('progressbar', { name: /^Working it out, \d more to come$/ })).toBeVisible();
	await expect(page.getByRole('progressbar')).toHaveCount(0, { timeout: 20_000 });
	await page.getByText('All that was done').click();
	const done = page.locator('#sheet ol > li').filter({ hasText: new RegExp(steps.join('|')) });
	await expect(done).toHaveCount(steps.length);
	const told = (await done.allInnerTexts()).map((words) => steps.findIndex((step) => words.includes(step)));
	expect([told, told.toReversed()]).toContainEqual([0, 1, 2, 3, 4]);
	expect(seqs).toEqual(['0', '1', '2', '3', '4']);
});

test('the same button tapped twice does it once', async ({ page }) => {
	await doIt(page, steps[0]).dblclick();
	await expect(page.getByRole('progressbar')).toHaveCount(0, { timeout: 20_000 });
	await expect(page.locator('.slip:visible')).toContainText(steps[0]);
	await expect(page.locator('.slip:visible')).not.toContainText('Not done.');
	await page.getByText('All that was done').click();
	await expect(page.locator('#sheet ol > li').filter({ hasText: steps[0] })).toHaveCount(1);
});

test('where one is not done, those tapped after it are not done either, and that is said', async ({ page }) => {
	// The casing cannot come back before it is off: the row offers it once it is.
	await doIt(page, 'Take the casing off').click();
	await page.getByRole('button', { name: /^Prove it/ }).click();
	await doIt(page, 'Isolate the water').click();
	await expect(page.locator('.slip:visible')).toContainText('Not done.', { timeout: 20_000 });
	await expect(page.locator('.slip:visible')).toContainText('What you chose after it was not done either.');
	await expect(page.getByRole('progressbar')).toHaveCount(0);
	await expect(doIt(page, 'Isolate the water')).toBeVisible();
});
