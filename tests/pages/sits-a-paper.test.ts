import { randomBytes } from 'node:crypto';
import { expect, test, type Page } from '@playwright/test';
import { signUp } from './account';
import { debriefed, debriefMs, openTap, ready } from './bench';
import { examine } from './examine';
import { endTime, endWindow, setPaper } from './paper';

const phone = { width: 360, height: 740 };

async function begun(page: Page, title: string): Promise<string> {
	const name = `Sitter ${randomBytes(4).toString('hex')}`;
	await signUp(page, name);
	const id = setPaper(name, { title });
	await page.goto('/papers');
	await expect(page.getByRole('heading', { name: 'Open' })).toBeVisible();
	await page.getByRole('link', { name: /^Look at it/ }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(title);
	return id;
}

/** Begins, opens the tap in the first callout, answers the drill, and hands in. */
async function sit(page: Page, title: string, hasScripts: boolean, look: (where: string) => Promise<void> = async () => undefined) {
	await look('a paper before it is begun');
	await page.getByRole('button', { name: 'Begin, the clock starts' }).click();
	await page.waitForURL(/\/sitting\/[\w-]+$/);
	const sitting = page.url();
	await expect(page.getByRole('cell', { name: 'Untried' })).toHaveCount(3);
	await look('a sitting');
	await page.getByRole('button', { name: /^Begin 1/ }).click();
	await page.waitForURL(/\/callout\//);
	if (hasScripts) await ready(page);
	const strip = page.getByRole('complementary', { name: 'Paper' });
	await expect(strip).toContainText(/until \d\d:\d\d/);
	await expect(page.getByText('Coaching', { exact: false })).toHaveCount(0);
	await openTap(page);
	await look('a callout of a paper');
	await strip.getByRole('link', { name: title }).click();
	await expect(page.getByRole('cell', { name: 'Begun' })).toHaveCount(1);
	await page.getByRole('row', { name: /Drill/ }).getByRole('button').click();
	await page.getByRole('textbox', { name: 'Your figure' }).fill('123456');
	await page.getByRole('button', { name: 'Answer' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Your answer is taken.');
	await look('a drill that is answered');
	await page.getByRole('link', { name: 'Back to the paper' }).click();
	await page.getByRole('link', { name: 'Hand in' }).click();
	await expect(page.getByText('An item that was only opened earns next to nothing.')).toBeVisible();
	await expect(page.getByRole('heading', { name: 'Untried' })).toBeVisible();
	await expect(page.getByRole('heading', { name: 'Begun, and not brought to an end' })).toBeVisible();
	await look('the second asking');
	await page.getByRole('button', { name: 'Hand in for good' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^Handed in at/);
	await look('a paper that is handed in');
	return sitting;
}

test.describe('on a phone', () => {
	test.use({ viewport: phone });
	const looks = (['light', 'dark'] as const).map((colorScheme) => ({ width: phone.width, colorScheme }));
	const examineHere = (page: Page, where: string) => examine(page, where, looks);

	test('a paper is sat on a phone, from the list to the result, and axe finds nothing on the way', async ({ page }) => {
		test.setTimeout(debriefMs + 120_000);
		// A title as long as they come widens nothing.
		const title = 'Wilhelminawilhelminawilhelmina on hot water, first of 2 papers';
		const id = await begun(page, title);
		const sitting = await sit(page, title, true, (where) => examineHere(page, where));
		await expect(page.getByText('Result and debriefs are told when its window has ended')).toBeVisible();
		await page.goto('/papers');
		await examineHere(page, 'papers');
		endWindow(id);
		await page.goto(sitting);
		await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^Not passed/, { timeout: debriefMs });
		await examineHere(page, 'a result');
		await page.getByRole('link', { name: 'Debrief of item 1' }).click();
		await debriefed(page);
		await expect(page.getByRole('link', { name: 'Back to the result' }).first()).toHaveAttribute('href', new URL(sitting).pathname);
		await page.goto(sitting);
		await page.getByRole('link', { name: 'Answer of item 3' }).click();
		await expect(page.getByRole('heading', { level: 1 })).toHaveText('Not right');
		await page.goto('/account');
		await page.getByText('Delete the account').click();
		await expect(page.getByText('What you did in papers stays')).toBeVisible();
	});
});

test('the countdown goes by the server’s clock, and says once that five minutes are left', async ({ page }) => {
	const title = 'A paper with a clock';
	await begun(page, title);
	// A browser whose clock is a day behind.
	await page.clock.install({ time: Date.now() - 24 * 3600_000 });
	await page.getByRole('button', { name: 'Begin, the clock starts' }).click();
	await expect(page.getByText(/(59|60) min left/)).toBeVisible();
	const said = page.locator('[aria-live=polite]', { hasText: 'Five minutes or less' });
	await page.clock.runFor(54 * 60_000);
	await expect(said).toHaveCount(0);
	await page.clock.runFor(75_000);
	await expect(said).toHaveCount(1);
	await expect(page.getByText(/4:\d\d left/)).toBeVisible();
});

test('another browser is refused until it carries on, and the first is then told', async ({ page, browser }) => {
	const title = 'A paper in two places';
	await begun(page, title);
	await page.getByRole('button', { name: 'Begin, the clock starts' }).click();
	await page.waitForURL(/\/sitting\//);
	const name = (await page.locator('header .who').textContent())!;
	const context = await browser.newContext();
	const second = await context.newPage();
	await second.goto('/sign-in');
	await second.getByLabel('Name').fill(name);
	await second.getByLabel('Password').fill('two short planks');
	await second.getByRole('main').getByRole('button', { name: 'Sign in' }).click();
	await second.waitForURL((url) => url.pathname !== '/sign-in');
	await second.goto(page.url());
	await expect(second.getByRole('heading', { level: 1 })).toHaveText(`${title} is being sat in another place.`);
	await examine(second, 'a second place');
	await second.getByRole('button', { name: 'Carry on here' }).click();
	await expect(second.getByRole('heading', { level: 1 })).toHaveText(title);
	await page.reload();
	await expect(page.getByRole('button', { name: 'Carry on here' })).toBeVisible();
	await context.close();
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false, viewport: phone });

	test('a paper is sat, and says until when as a time of day', async ({ page }) => {
		const title = 'A paper without scripts';
		await begun(page, title);
		await sit(page, title, false);
	});
});

test('without a connection at the deadline nothing can be sent, and the end is told once there is one', async ({ page, context }) => {
	const title = 'A paper that ends offline';
	const id = await begun(page, title);
	await page.clock.install();
	await page.getByRole('button', { name: 'Begin, the clock starts' }).click();
	await page.getByRole('row', { name: /Drill/ }).getByRole('button').click();
	await page.waitForURL(/\/drill\//);
	await expect(page.getByText(/(59|60) min left/)).toBeVisible();
	await context.setOffline(true);
	await page.clock.runFor(61 * 60_000);
	const strip = page.getByRole('complementary', { name: 'Paper' });
	await expect(strip).toContainText('Time is over');
	await expect(page.locator('main form')).toHaveAttribute('inert', '');
	await expect(page.getByRole('textbox', { name: 'Your figure' })).toBeVisible();
	endTime(id);
	await context.setOffline(false);
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^Closed when the time was over/);
	await expect(page.getByText('What was not sent by then does not count')).toBeVisible();
});
