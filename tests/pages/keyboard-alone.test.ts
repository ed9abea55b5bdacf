import { expect, test, type Page } from '@playwright/test';
import { debriefed, debriefMs } from './bench';

/** Goes on with Tab until the focus is on what bears this name. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
	const most = 400;
	for (let i = 0; i < most; i++) {
		await page.keyboard.press('Tab');
		const at = await page.evaluate(() => {
			const on = document.activeElement;
			if (!(on instanceof HTMLElement)) return '';
			const labels =
				on instanceof HTMLInputElement || on instanceof HTMLTextAreaElement
					? [...(on.labels ?? [])].map((label) => label.innerText).join(' ')
					: '';
			return (on.getAttribute('aria-label') ?? (labels || on.textContent || '')).replace(/\s+/g, ' ').trim();
		});
		if (name.test(at)) return;
	}
	throw new Error(`Tab does not reach ${name}`);
}

test('the whole of a callout by keyboard alone, to the debrief', async ({ page }) => {
	test.setTimeout(debriefMs + 90_000);
	await page.goto('/');
	await tabTo(page, /^Start a callout/);
	await page.keyboard.press('Enter');
	await page.waitForURL(/\/callout\//);
	await expect(page.locator('.bench.scripted')).toBeVisible();

	// Shown round once.
	await tabTo(page, /^Skip$/);
	await page.keyboard.press('Enter');
	await expect(page.getByRole('complementary', { name: 'First visit' })).toBeHidden();

	// An unsafe act is stopped and explained.
	await tabTo(page, /^Inlet filter:/);
	await page.keyboard.press('Enter');
	await tabTo(page, /^Take it ?: Inlet filter/);
	await page.keyboard.press('Enter');
	await expect(page.locator('.slip:visible')).toContainText('Stopped: the water must be isolated.');
	await expect(page.getByRole('button', { name: /^Take it ?: Inlet filter/ })).toBeFocused();

	await page.locator('#main').focus();
	// The demand: a radio group is one stop, its arrows choose.
	await tabTo(page, /^Nothing asked for/);
	await page.keyboard.press('ArrowDown');
	await tabTo(page, /^Run it so/);
	await page.keyboard.press('Enter');
	await expect(page.locator('.slip:visible')).toContainText('Demand: Tap complained of');
	await expect(page.getByRole('button', { name: 'Already running' })).toBeFocused();

	// A place: choosing it takes the reader to its checks.
	await page.keyboard.press('Home');
	await page.locator('#main').focus();
	await tabTo(page, /^Hot tap:/);
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { name: 'Hot tap', level: 2 })).toBeFocused();
	await tabTo(page, /^Take it: Tap temperature/);
	await page.keyboard.press('Enter');
	await expect(page.locator('.slip:visible')).toContainText('Tap temperature');
	await expect(page.getByRole('button', { name: /^Take it again ?: Tap temperature/ })).toBeFocused();

	// The sheet: order, note, judge, prove, leave.
	await tabTo(page, /^By what they concern/);
	await page.keyboard.press('Enter');
	await expect(page.getByRole('link', { name: 'By what they concern' })).toHaveAttribute('aria-current', 'true');
	await tabTo(page, /^Write a note/);
	await page.keyboard.type('Filter not looked at.');
	await tabTo(page, /^Write it on the sheet/);
	await page.keyboard.press('Enter');
	await expect(page.locator('.slip:visible')).toContainText('Note: Filter not looked at.');
	await tabTo(page, /^Which faults are still in/);
	await page.keyboard.press('Enter');
	await tabTo(page, /^Pump seized/);
	await page.keyboard.press('Space');
	await tabTo(page, /^Write this down/);
	await page.keyboard.press('Enter');
	await expect(page.locator('.slip:visible')).toContainText('faults still in');
	await tabTo(page, /^Prove it/);
	await page.keyboard.press('Enter');
	await expect(page.locator('.slip:visible')).toContainText('Proved the repair');
	await tabTo(page, /^Tell the customer and leave/);
	await page.keyboard.press('Enter');
	await tabTo(page, /^I am done here/);
	await page.keyboard.press('Space');
	await tabTo(page, /^Leave \d+ min$/);
	await page.keyboard.press('Enter');
	await page.waitForURL(/\/debrief$/);
	await debriefed(page);
	await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
});

test('the van opens and shuts by keyboard and gives the focus back', async ({ page }) => {
	await page.goto('/');
	await tabTo(page, /^Start a callout/);
	await page.keyboard.press('Enter');
	await page.waitForURL(/\/callout\//);
	await expect(page.locator('.bench.scripted')).toBeVisible();
	await tabTo(page, /^Van$/);
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { name: 'Van' })).toBeVisible();
	await expect(page.getByRole('button', { name: 'Shut the van' })).toBeFocused();
	await page.keyboard.press('Escape');
	await expect(page.getByRole('heading', { name: 'Van' })).toBeHidden();
	await expect(page.getByRole('link', { name: 'Van' })).toBeFocused();
});
