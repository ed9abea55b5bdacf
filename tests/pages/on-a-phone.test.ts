import { expect, test, type Page } from '@playwright/test';
import { beRefused, breach, choose, openTap, ready, startCallout, take } from './bench';

test.use({ viewport: { width: 360, height: 740 } });

test.beforeEach(async ({ page, baseURL }) => {
	await page.context().addCookies([{ name: 'provewell-toured', value: '1', url: baseURL! }]);
	await startCallout(page);
	await ready(page);
});

/** Share of the screen that what is pinned to its top takes. */
async function pinnedShare(page: Page): Promise<number> {
	return page.evaluate(() => {
		const bottoms = ['.clock', '.slip-above .over'].map((one) => document.querySelector(`.bench > ${one}`)!.getBoundingClientRect().bottom);
		return Math.max(...bottoms) / innerHeight;
	});
}
const go = (page: Page, place: RegExp) => page.getByRole('navigation', { name: 'Places' }).getByRole('link', { name: place }).click();

test('what came of an action takes four lines at most, one once the page is scrolled, and all of it is a tap away', async ({ page }) => {
	await breach(page);
	const slip = page.locator('.slip:visible');
	await expect(slip).toContainText('Stopped: the water must be isolated.');
	// The rule stands once.
	expect((await slip.innerText()).match(/Isolate what the work opens/g)).toHaveLength(1);
	expect(await pinnedShare(page)).toBeLessThan(0.25);
	await page.mouse.wheel(0, -200);
	await expect(page.locator('.pinned')).toHaveAttribute('data-size', 'line');
	expect(await pinnedShare(page)).toBeLessThan(0.12);
	await page.locator('.pinned').getByRole('button', { name: /^More/ }).click();
	const last = slip.getByText(/ceilings come down/);
	await expect(last).toBeInViewport();
	await page.locator('.pinned').getByRole('button', { name: /^Less/ }).click();
	await expect(page.locator('.pinned')).toHaveAttribute('data-size', 'line');
});

test('what came of an action shrinks to one line by itself', async ({ page }) => {
	await breach(page);
	await expect(page.locator('.pinned')).toHaveAttribute('data-size', 'four');
	await expect(page.locator('.pinned')).toHaveAttribute('data-size', 'line', { timeout: 9000 });
});

test('a place that is chosen stands just under what is pinned', async ({ page }) => {
	await choose(page, 'Hot tap');
	const gap = () =>
		page.evaluate(() => {
			const [title, over] = ['#place h2', '.slip-above .over'].map((one) => document.querySelector(one)!.getBoundingClientRect());
			return title.top - over.bottom;
		});
	await expect.poll(gap).toBeLessThan(40);
	expect(await gap()).toBeGreaterThanOrEqual(0);
});

test('Back returns to the place and to the part of the bench where one was', async ({ page }) => {
	const before = page.url();
	await choose(page, 'Hot tap');
	await expect(page).toHaveURL(/place=tap$/);
	await go(page, /^Sheet/);
	await expect(page.getByRole('heading', { name: 'Job sheet' })).toBeVisible();
	await page.goBack();
	await expect(page.getByRole('heading', { name: 'Hot tap', level: 2 })).toBeVisible();
	await expect(page.getByRole('heading', { name: 'Job sheet' })).toBeHidden();
	await page.goBack();
	await expect(page.getByRole('heading', { name: 'Choose a place' })).toBeVisible();
	expect(page.url()).toBe(before);
	await page.goForward();
	await expect(page.getByRole('heading', { name: 'Hot tap', level: 2 })).toBeVisible();
});

test('the strip says what is isolated or open, and nothing where all is as found', async ({ page }) => {
	const strip = page.locator('.bench > .clock');
	await expect(strip.locator('.mark')).toHaveCount(0);
	await go(page, /^Sheet/);
	await page.getByText('Make safe and open up').click();
	for (const step of ['Isolate the electricity', 'Prove dead', 'Take the casing off']) {
		await page.getByRole('button', { name: new RegExp(`^Do ?: ${step}`) }).click();
		// The focus is on the row, which now says how it stands.
		const row = page.locator('#sheet li').filter({ has: page.getByRole('heading', { name: step }) });
		await expect(row).toContainText('Already so');
		await expect(row).toBeFocused();
	}
	await expect(strip.locator('.mark')).toHaveText([/Elec off, proved dead\.Electricity off, proved dead\./, /Casing off\./]);
	await page.getByRole('button', { name: /^Do ?: Put the casing back/ }).click();
	await page.getByRole('button', { name: /^Do ?: Restore the electricity/ }).click();
	await expect(strip.locator('.mark')).toHaveCount(0);
});

test('on the sheet making safe, proving and leaving come before the readings, and the complaint stays in sight', async ({ page }) => {
	await openTap(page);
	await choose(page, 'Hot tap');
	await take(page, 'Tap temperature');
	await go(page, /^Sheet/);
	const top = async (words: string | RegExp) => (await page.locator('#sheet').getByText(words).first().boundingBox())!.y;
	const readings = await top('By time');
	for (const words of ['Make safe and open up', /^Prove it/, 'Tell the customer and leave']) {
		expect(await top(words), `${words}`).toBeLessThan(readings);
	}
	for (const place of [/^Sheet/, /^Van/]) {
		await go(page, place);
		await expect(page.locator('.clock > .complaint')).toBeInViewport();
		expect((await page.locator('.clock > .complaint').boundingBox())!.height).toBeLessThan(30);
	}
});

test('a refusal names the step as a button that does it', async ({ page }) => {
	await go(page, /^Sheet/);
	await beRefused(page);
	const slip = page.locator('.slip:visible');
	await slip.getByRole('button', { name: /^Put the casing back/ }).click();
	await expect(slip).toContainText('Put the casing back');
	await expect(slip).not.toContainText('Not done.');
	expect(await page.evaluate(() => document.activeElement === document.body)).toBe(false);
});

test('a part that is open stays open when one comes back to its place', async ({ page }) => {
	await choose(page, 'Fan');
	const work = page.locator('#place details').filter({ hasText: /^Fit/ }).first();
	await work.locator('summary').click();
	await expect(work).toHaveAttribute('open', '');
	await choose(page, 'Pump');
	await choose(page, 'Fan');
	await expect(work).toHaveAttribute('open', '');
});
