import { expect, test } from '@playwright/test';
import { choose, debriefed, debriefMs, openTap, ready, startCallout } from './bench';

test('what is running already is run again only by another button', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await openTap(page);
	const minutes = page.locator('.bench > .clock dd').first();
	const once = await minutes.innerText();
	// It is pressed although it says that it is not to be.
	await page.getByRole('button', { name: 'Already running' }).click({ force: true });
	await page.getByRole('radio', { name: /^Tap complained of/ }).press('Enter');
	await page.waitForTimeout(300);
	await expect(minutes).toHaveText(once);
	await page.getByText('Run it once more').click();
	await page.getByRole('button', { name: /^Run it again/ }).click();
	await expect(minutes).not.toHaveText(once);
	await page.getByRole('radio', { name: /^Heating called for/ }).check();
	await expect(page.getByRole('button', { name: /^Run it so/ })).toBeVisible();
});

test('a part that was fitted is not offered to be fitted once more', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await page.getByText('Make safe and open up').click();
	await page.getByRole('button', { name: /^Do ?: Isolate the water/ }).click();
	await choose(page, 'Inlet filter');
	const work = page.locator('#place details').filter({ hasText: 'Fit a new inlet filter' });
	await work.locator('summary').click();
	await work.getByRole('radio', { name: 'guess' }).check();
	await work.getByRole('button', { name: /^Fit it/ }).click();
	await expect(work).toContainText('Fitted in this visit.');
	await expect(work.getByRole('button')).toHaveCount(0);
	await expect(work.locator('summary')).toBeFocused();
});

test('the customer is asked from a list, and how to ask stands once', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await choose(page, 'Customer');
	const place = page.locator('#place');
	await expect(place.getByText('Ask, and listen to the end.')).toHaveCount(1);
	await place.getByRole('button', { name: /^Ask ?: Is the water hard here/ }).click();
	await expect(place.getByRole('button', { name: /^Ask again ?: Is the water hard here/ })).toBeFocused();
	await expect(page.locator('.slip:visible')).not.toContainText('Reads');
});

test('a whole area is judged out or in by one button', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await page.getByText('Which faults are still in', { exact: true }).click();
	const area = page
		.locator('#sheet fieldset')
		.filter({ has: page.getByRole('button', { name: /^All out/ }) })
		.first();
	const boxes = area.getByRole('checkbox');
	const ticked = () => boxes.evaluateAll((all) => all.filter((one) => (one as HTMLInputElement).checked).length);
	const count = await boxes.count();
	expect(await ticked()).toBe(count);
	await area.getByRole('button', { name: /^All out/ }).click();
	expect(await ticked()).toBe(0);
	await area.getByRole('button', { name: /^All in/ }).click();
	await expect.poll(ticked).toBe(count);
});

test('a callout that runs is the first thing offered on the first page', async ({ page }) => {
	const running = await startCallout(page);
	await page.goto('/');
	await expect(page.getByRole('main').locator('.main')).toHaveText('Go on with the running one');
	await expect(page.getByRole('button', { name: 'Start another callout' })).toBeVisible();
	await page.getByRole('link', { name: 'Go on with the running one' }).click();
	await expect(page).toHaveURL(running);
});

test('a dangerous act ends the visit, and its debrief begins with it', async ({ page }) => {
	test.setTimeout(debriefMs + 60_000);
	await startCallout(page);
	await ready(page);
	await choose(page, 'Gas valve');
	await page.getByText('Make safe and open up').click();
	await page.getByRole('button', { name: /^Do ?: Take the casing off/ }).click();
	const work = page.locator('#place details').filter({ hasText: 'Fit a new gas valve' });
	await work.locator('summary').click();
	await work.getByRole('radio', { name: 'guess' }).check();
	await work.getByRole('button', { name: /^Fit it/ }).click();
	await page.waitForURL(/\/debrief$/);
	await debriefed(page);
	const title = page.getByRole('heading', { level: 1 });
	await expect(title).toHaveText('Stopped at 3 min: Fit a new gas valve (guess)');
	await expect(title).toBeFocused();
	const box = page.locator('header > div').filter({ has: title });
	await expect(box).toContainText('Unburnt gas in a room wants only a spark.');
	const colour = await title.evaluate((one) => getComputedStyle(one).color);
	expect(colour).toBe(
		await page
			.locator('header > div > p')
			.first()
			.evaluate((one) => getComputedStyle(one).color)
	);
	expect(colour).not.toBe(await page.getByRole('heading', { name: /^The fault: / }).evaluate((one) => getComputedStyle(one).color));
	// The bill names the minute, and leads to the row of the path.
	await page.getByRole('link', { name: 'at 3 min' }).first().click();
	await expect(page.locator('li:target')).toContainText('Fit a new gas valve');
	await expect(page.locator('li:target')).toContainText('3');
});
