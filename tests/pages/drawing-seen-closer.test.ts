import { expect, test, type Page } from '@playwright/test';
import { choose, openTap, ready, startCallout } from './bench';

const sheet = (page: Page) => page.locator('#appliance .sheet');
const widthOf = async (page: Page) => (await sheet(page).boundingBox())!.width;
/** Where a place is on the screen. */
async function middle(page: Page, place: string): Promise<{ x: number; y: number }> {
	const box = (await page.getByRole('button', { name: new RegExp(`^${place}:`) }).boundingBox())!;
	return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

test('by keyboard: larger, smaller and whole, and an action leaves it as it is', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	const before = await widthOf(page);
	await page.getByRole('button', { name: /^Fan:/ }).focus();
	await page.keyboard.press('+');
	await page.keyboard.press('+');
	await expect.poll(() => widthOf(page)).toBeGreaterThan(before * 1.9);
	await expect(page.getByRole('button', { name: /^Fan:/ })).toBeInViewport();
	const large = await widthOf(page);

	await openTap(page);
	expect(await widthOf(page)).toBeCloseTo(large, 0);

	await page.getByRole('button', { name: /^Fan:/ }).focus();
	await page.keyboard.press('-');
	await expect.poll(() => widthOf(page)).toBeLessThan(large);
	await page.keyboard.press('0');
	await expect.poll(async () => (await sheet(page).boundingBox())!.height).toBeLessThanOrEqual(page.viewportSize()!.height);
});

test('the keys mean nothing to it while something else has the focus', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	const before = await widthOf(page);
	await page.getByRole('radio', { name: /^Nothing asked for/ }).focus();
	await page.keyboard.press('+');
	expect(await widthOf(page)).toBe(before);
});

test('by buttons and by the wheel with ctrl, about the pointer; the wheel alone moves the page', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await page.getByRole('button', { name: 'Larger' }).click();
	await expect.poll(() => widthOf(page)).toBeGreaterThan(400);
	const before = await widthOf(page);
	// Far enough down not to lie under the strip with the clock, however long the complaint above is.
	const held = 'Main exchanger';
	const at = await middle(page, held);
	await page.mouse.move(at.x, at.y);
	await page.mouse.wheel(0, 1);
	expect(await widthOf(page)).toBe(before);
	const under = await middle(page, held);
	await page.keyboard.down('Control');
	await page.mouse.wheel(0, -100);
	await page.keyboard.up('Control');
	await expect.poll(() => widthOf(page)).toBeGreaterThan(before * 1.2);
	const after = await middle(page, held);
	expect(Math.hypot(after.x - under.x, after.y - under.y)).toBeLessThan(4);
});

test.describe('with fingers', () => {
	test.use({ hasTouch: true, viewport: { width: 360, height: 740 } });

	test('two of them spread make it larger', async ({ page }) => {
		await startCallout(page);
		await ready(page);
		const before = await widthOf(page);
		await page.getByRole('button', { name: /^Limit:/ }).evaluate((limit) => limit.scrollIntoView({ block: 'center' }));
		const { x, y } = await middle(page, 'Limit');
		const touch = await page.context().newCDPSession(page);
		const fingers = (apart: number) => [
			{ x: x - apart, y, id: 0 },
			{ x: x + apart, y, id: 1 }
		];
		await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: fingers(20) });
		for (const apart of [25, 30, 35, 40]) await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: fingers(apart) });
		await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
		await expect.poll(() => widthOf(page)).toBeGreaterThan(before * 1.5);
		const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
		expect(over, 'the page itself does not scroll sideways').toBeLessThanOrEqual(0);
	});
});

test('whole in a low window, each place can still be hit', async ({ page }) => {
	await page.setViewportSize({ width: 1280, height: 400 });
	await startCallout(page);
	await ready(page);
	await page.getByRole('button', { name: 'Whole' }).click();
	await expect.poll(() => widthOf(page)).toBeLessThan(400);
	const least = await page
		.locator('.over button')
		.evaluateAll((all) => Math.min(...all.flatMap((one) => [one.getBoundingClientRect().width, one.getBoundingClientRect().height])));
	expect(least).toBeGreaterThanOrEqual(24);
});

test('a place chosen far out of sight is found by Tab with the drawing made large', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await choose(page, 'Customer');
	for (let i = 0; i < 4; i++) await page.getByRole('button', { name: 'Larger' }).click();
	const last = page.getByRole('button', { name: /^Other outlet:/ });
	await expect(last).not.toBeInViewport();
	await last.focus();
	await expect(last).toBeInViewport({ ratio: 0.9 });
});
