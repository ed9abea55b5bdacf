import { expect, test, type Locator, type Page } from '@playwright/test';
import { choose, debriefed, debriefMs, leave, openTap, ready, set, startCallout } from './bench';
import { axeFindsNothing } from './examine';

const suspects = ['Scale on the tap-water side of the plate exchanger', 'Pump seized'] as const;

/** By the names that a screen reader says. */
async function predict(page: Page, check: string): Promise<Locator> {
	await page.getByRole('link', { name: new RegExp(`^Predict, then take it ?: ${check}$`) }).click();
	const form = page.getByRole('group', { name: new RegExp(`^Which suspects should it tell apart\\? ${check}`) });
	await form.getByRole('combobox', { name: 'First suspect', exact: true }).selectOption({ label: suspects[0] });
	await form.getByRole('combobox', { name: /^against sound ?: first suspect$/ }).selectOption('lower');
	await form.getByRole('combobox', { name: 'Second suspect', exact: true }).selectOption({ label: suspects[1] });
	await form.getByRole('combobox', { name: /^against sound ?: second suspect$/ }).selectOption('higher');
	return page.getByRole('button', { name: new RegExp(`^Write it down and take it ?: ${check} `) });
}

/** The comparison, once the table of evidence is there; it comes with the page. */
async function gapShown(page: Page): Promise<Locator> {
	const gap = page.locator('#place .gap');
	await expect(async () => {
		if ((await gap.count()) === 0) {
			await expect(page.locator('#place')).toContainText('still being worked out');
			await page.reload();
		}
		await expect(gap).toContainText('Predicted and read', { timeout: 1000 });
	}).toPass({ timeout: debriefMs });
	return gap;
}

for (const javaScriptEnabled of [true, false]) {
	test.describe(javaScriptEnabled ? 'with scripts' : 'without scripts', () => {
		test.use({ javaScriptEnabled, viewport: { width: 360, height: 780 } });
		const arrived = (page: Page) => (javaScriptEnabled ? ready(page) : Promise.resolve());
		const goTo = (page: Page, name: string) => page.getByRole('navigation', { name: 'Places' }).getByRole('link', { name }).click();

		test('a coached callout on a phone: predict, observe, and read both on the debrief', async ({ page }) => {
			test.setTimeout(debriefMs * 2);
			await startCallout(page);
			await arrived(page);
			await goTo(page, 'Sheet');
			await page.getByRole('button', { name: 'Switch coaching on' }).click();
			await expect(page.getByRole('button', { name: 'Switch coaching off' })).toBeVisible();
			await expect(page.getByText('Coaching asks before every check now.')).toBeVisible();
			await expect(page.getByRole('list', { name: 'Steps of the method' }).getByRole('listitem')).toHaveText([
				/Describe the problem/,
				/Name causes by function/,
				/Test/,
				/Repair/,
				/Evaluate/
			]);
			await goTo(page, 'Appliance');
			await openTap(page);
			await choose(page, 'Hot tap');
			await expect(page.getByRole('button', { name: /^Take it without predicting ?: Tap temperature / })).toBeVisible();
			const send = await predict(page, 'Tap temperature');
			if (javaScriptEnabled) await axeFindsNothing(page, 'the form');
			const posted: string[] = [];
			page.on('request', (request) => request.method() === 'POST' && posted.push(request.url()));
			await send.click();
			await expect(page.locator('.slip:visible')).toContainText('Tap temperature');
			expect(posted).toHaveLength(1);
			const gap = await gapShown(page);
			await arrived(page);
			await expect(gap.getByRole('listitem')).toHaveCount(2);
			await expect(gap).toContainText(/Sound: [\d.]+ to [\d.]+\s°C/);
			await expect(gap.getByRole('listitem').filter({ hasText: 'Pump seized' })).toContainText(
				/^Pump seized\s*You said higher than sound: not so\. With it, most read/
			);
			expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
			if (javaScriptEnabled) await axeFindsNothing(page, 'the comparison');
			// What was read is no longer to be predicted; another check is, or is taken without.
			await expect(page.getByRole('link', { name: /^Predict, then take it ?: Tap temperature$/ })).toHaveCount(0);
			await page.getByRole('button', { name: /^Take it without predicting ?: Tap flow / }).click();
			await expect(page.locator('.slip:visible')).toContainText('Tap flow');
			await goTo(page, 'Sheet');
			await leave(page);
			await debriefed(page);
			const path = page.getByRole('listitem').filter({ hasText: 'Predicted: Tap temperature' });
			await expect(path.locator('.gap')).toContainText('not so');
			await expect(page.locator('.gap')).toHaveCount(1);
			if (javaScriptEnabled) await axeFindsNothing(page, 'the debrief');
		});

		test('one suspect named twice is refused in words, and nothing is stored', async ({ page }) => {
			await set(page, /^Coached practice/);
			await startCallout(page);
			await arrived(page);
			await openTap(page);
			await choose(page, 'Hot tap');
			const send = await predict(page, 'Tap temperature');
			await page.getByRole('combobox', { name: 'Second suspect', exact: true }).selectOption({ label: suspects[0] });
			await send.click();
			await expect(page.locator('.slip:visible')).toContainText('One suspect stands there twice');
			await expect(page.getByRole('combobox', { name: 'First suspect', exact: true })).toBeVisible();
			await expect(page.locator('#sheet table')).not.toContainText('Tap temperature');
		});
	});
}

test('coaching is off until it is switched on, on the bench or in the settings', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await choose(page, 'Hot tap');
	await expect(page.getByRole('link', { name: /^Predict/ })).toHaveCount(0);
	await page.goto('/settings');
	const box = page.getByRole('checkbox', { name: /^Coached practice/ });
	await expect(box).not.toBeChecked();
	await expect(box).toHaveAccessibleDescription(/Human Factors 42\(1\), 75-86/);
});

test('a prediction is made by keyboard alone, and the focus stays by its check', async ({ page }) => {
	await set(page, /^Coached practice/);
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await choose(page, 'Hot tap');
	await page.getByRole('link', { name: /^Predict, then take it ?: Tap temperature$/ }).focus();
	await page.keyboard.press('Enter');
	await expect(page.getByRole('combobox', { name: 'First suspect', exact: true })).toBeFocused();
	for (const key of ['S', 'Tab', 'l', 'Tab', 'P', 'Tab', 'h']) await page.keyboard.press(key);
	const send = page.getByRole('button', { name: /^Write it down and take it/ });
	await expect(async () => {
		await page.keyboard.press('Tab');
		await expect(send).toBeFocused({ timeout: 200 });
	}).toPass({ timeout: 5000 });
	await page.keyboard.press('Enter');
	await expect(page.locator('.slip:visible')).toContainText('Tap temperature');
	await expect(page.getByRole('listitem').filter({ has: page.getByRole('heading', { name: 'Tap temperature' }) })).toBeFocused();
});
