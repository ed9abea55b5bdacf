import AxeBuilder from '@axe-core/playwright';
import { expect, test, type BrowserContext, type Page } from '@playwright/test';
import { choose, ready, startCallout } from './bench';

/** The learner's own setting, as the settings page keeps it. */
async function setMyself(context: BrowserContext, baseURL: string | undefined): Promise<void> {
	await context.addCookies([
		{ name: 'provewell-own-settings', value: '1', url: baseURL! },
		{ name: 'provewell-toured', value: '1', url: baseURL! }
	]);
}

const meter = (page: Page) => page.locator('#place details').filter({ hasText: 'Set the multimeter' }).first();
const slip = (page: Page) => page.locator('.slip:visible');

async function openMeter(page: Page): Promise<void> {
	await choose(page, 'Fused spur');
	await meter(page).locator('summary').click();
	await expect(meter(page).getByRole('radio', { name: 'volts a.c. 600' })).toBeVisible();
}

test('it sets itself for a first callout, and its face shows what it last read', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await choose(page, 'Fused spur');
	const face = page.locator('#place .instrument').first();
	await expect(face).toContainText('Multimeter shows nothing yet');
	await expect(page.locator('#place').getByRole('radio')).toHaveCount(0);
	await page.getByRole('button', { name: /: Volts at the spur/ }).click();
	await expect(face).toContainText(/Multimeter shows 2\d\d V: Volts at the spur/);
	await expect(face.getByRole('link', { name: 'Set it myself' })).toHaveAttribute('href', '/settings');
});

test.describe('set by the learner', () => {
	test.beforeEach(({ context, baseURL }) => setMyself(context, baseURL));

	test('by keyboard alone: range, leads, reading', async ({ page }) => {
		await startCallout(page);
		await ready(page);
		await choose(page, 'Fused spur');
		await meter(page).locator('summary').focus();
		await page.keyboard.press('Enter');
		await page.keyboard.press('Tab');
		await expect(meter(page).getByRole('radio', { name: 'ohms 200', exact: true })).toBeFocused();
		// Five ranges in ohms and the first in volts are passed by the arrows.
		for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowDown');
		await expect(meter(page).getByRole('radio', { name: 'volts a.c. 250' })).toBeChecked();
		await page.keyboard.press('Tab');
		await page.keyboard.press('Space');
		await page.keyboard.press('Tab');
		await page.keyboard.press('ArrowDown');
		const leads = (lead: string) => meter(page).getByRole('group', { name: `${lead} lead on` });
		await expect(leads('Brown').getByRole('radio', { name: 'Live' })).toBeChecked();
		await expect(leads('Blue').getByRole('radio', { name: 'Neutral' })).toBeChecked();
		await page.keyboard.press('Tab');
		await page.keyboard.press('Enter');
		await expect(slip(page)).toContainText('Volts at the spur (volts a.c. 250, live to neutral)');
		await expect(slip(page)).toContainText(/2\d\d\.\d/);
		await expect(meter(page).locator('.instrument')).toContainText('volts a.c. 250, live to neutral');
		await expect(page.locator('#sheet tbody th').filter({ hasText: 'Volts at the spur' })).toContainText(
			'Set by hand: volts a.c. 250, live to neutral'
		);
	});

	test('nothing is taken before range and leads are chosen', async ({ page }) => {
		await startCallout(page);
		await ready(page);
		await openMeter(page);
		await meter(page)
			.getByRole('button', { name: /^Take it/ })
			.click();
		await expect(slip(page)).not.toContainText('Volts at the spur');
		const chosen = await meter(page).evaluate((at) => at.closest('form')!.checkValidity());
		expect(chosen).toBe(false);
	});

	test('ohms on the live spur: no reading, it is said, and the meter is in the van again', async ({ page }) => {
		await startCallout(page);
		await ready(page);
		await openMeter(page);
		await expect(meter(page)).toContainText('Ohms on a dead circuit only');
		await meter(page).getByRole('radio', { name: 'ohms 20k', exact: true }).check();
		await meter(page).getByRole('group', { name: 'Brown lead on' }).getByRole('radio', { name: 'Live' }).check();
		await meter(page).getByRole('group', { name: 'Blue lead on' }).getByRole('radio', { name: 'Neutral' }).check();
		await meter(page)
			.getByRole('button', { name: /^Take it/ })
			.click();
		await expect(slip(page)).toContainText('Stopped: ');
		await expect(slip(page)).toContainText('fuse has blown');
		await expect(page.locator('#place .instrument').first()).toContainText('shows nothing yet');
		await expect(page.locator('#place')).toContainText('Multimeter, in the van');
	});

	for (const colorScheme of ['light', 'dark'] as const) {
		test(`axe finds nothing with the face open, ${colorScheme}`, async ({ page }) => {
			await page.emulateMedia({ colorScheme });
			await startCallout(page);
			await ready(page);
			await openMeter(page);
			await meter(page).getByRole('radio', { name: 'volts a.c. 600' }).check();
			for (const width of [360, 1440]) {
				await page.setViewportSize({ width, height: 900 });
				const { violations } = await new AxeBuilder({ page }).analyze();
				expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`)).toEqual([]);
				expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
			}
		});
	}

	test.describe('without scripts', () => {
		test.use({ javaScriptEnabled: false });

		test('plain radios do', async ({ page }) => {
			await startCallout(page);
			await openMeter(page);
			await meter(page).getByRole('radio', { name: 'volts d.c. 20' }).check();
			await meter(page).getByRole('group', { name: 'Brown lead on' }).getByRole('radio', { name: 'Live' }).check();
			await meter(page).getByRole('group', { name: 'Blue lead on' }).getByRole('radio', { name: 'Earth' }).check();
			await meter(page)
				.getByRole('button', { name: /^Take it/ })
				.click();
			await expect(slip(page)).toContainText('Volts at the spur (volts d.c. 20, live to earth)');
			await expect(slip(page)).toContainText('0.00');
		});
	});
});
