/** A reading taken over a run: its picture, cursor, table and sound, on the bench and beside the sound run in the debrief. */
import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { choose, debriefed, debriefMs, leave, openTap, ready, startCallout, take } from './bench';

const listen = 'Fan over the run';

async function listenToFan(page: Page): Promise<void> {
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await choose(page, 'Fan');
	await take(page, listen);
}
/** The run beside what was done last: above the drawing or beside it, as wide as the window is. */
const latest = (page: Page) => page.locator('.slip:visible + details.trace');

test('the run is drawn, read by arrow keys and by pointer, and written as a table', async ({ page }) => {
	await listenToFan(page);
	const run = latest(page);
	const cursor = run.getByRole('slider', { name: `${listen}, moment read` });
	const end = await cursor.getAttribute('aria-valuetext');
	expect(end).toMatch(/^At 240\u00a0s: Fan speed \d+\u00a0%; Igniter sparking: (yes|no); Burner lit: (yes|no)\.$/);
	await cursor.focus();
	await page.keyboard.press('Home');
	await expect(cursor).toHaveAttribute('aria-valuetext', /^At 0\u00a0s: Fan speed 0\u00a0%/);
	await page.keyboard.press('ArrowRight');
	await expect(cursor).toHaveAttribute('aria-valuetext', /^At 2\u00a0s: /);
	await expect(run.locator('.read')).toHaveText((await cursor.getAttribute('aria-valuetext'))!);

	const plot = (await run.locator('.plot').boundingBox())!;
	await page.mouse.move(plot.x + plot.width / 2, plot.y + 20);
	await expect(cursor).toHaveAttribute('aria-valuetext', /^At 120\u00a0s: /);
	await page.mouse.move(plot.x + plot.width - 1, plot.y + 20);
	await expect(cursor).toHaveAttribute('aria-valuetext', end!);

	await run.getByText('The same as a table').click();
	const rows = run.getByRole('table').getByRole('row');
	const figure = /Fan speed (\d+\u00a0%)/.exec(end!)![1]!;
	await expect(rows.last()).toContainText('240\u00a0s');
	await expect(rows.last()).toContainText(figure);

	await run.locator('summary').first().click();
	await expect(run.locator('.plot')).toHaveCount(0);
});

test('the run opens from the place and from the row of the sheet', async ({ page }) => {
	await page.setViewportSize({ width: 1440, height: 900 });
	await listenToFan(page);
	for (const where of [page.locator('#place'), page.locator('#sheet')]) {
		await where.locator('details.trace > summary').first().click();
		await expect(where.getByRole('slider', { name: `${listen}, moment read` })).toBeVisible();
	}
});

test('nothing sounds, or is loaded to sound, until it is asked for; then it plays, stops and is remembered', async ({ page }) => {
	await page.addInitScript(() => {
		const made: AudioContext[] = [];
		Object.assign(window, { made });
		const Real = window.AudioContext;
		window.AudioContext = class extends Real {
			constructor() {
				super();
				made.push(this);
			}
		};
	});
	const sounding = () => page.evaluate(() => (window as unknown as { made: AudioContext[] }).made.map(({ state }) => state));

	await listenToFan(page);
	const run = latest(page);
	await expect(run.getByRole('checkbox', { name: 'Sound' })).not.toBeChecked();
	await expect(run.getByRole('button', { name: /^Play/ })).toHaveCount(0);
	await run.getByRole('checkbox', { name: 'Sound' }).focus();
	await page.keyboard.press('Space');
	expect(await sounding()).toEqual([]);
	const scripts: string[] = [];
	page.on('request', (request) => void (request.resourceType() === 'script' && scripts.push(request.url())));

	await run.getByRole('button', { name: /^Play/ }).focus();
	await page.keyboard.press('Enter');
	await expect(run.getByRole('button', { name: /^Stop/ })).toBeFocused();
	expect(await sounding()).toEqual(['running']);
	expect(scripts.length, 'the synthesiser comes when it is asked for').toBeGreaterThan(0);
	await run.getByRole('slider', { name: 'Volume' }).fill('0.2');
	await page.keyboard.press('Tab');
	await run.getByRole('button', { name: /^Stop/ }).press('Enter');
	await expect(run.getByRole('button', { name: /^Play/ })).toBeVisible();
	await expect.poll(sounding).toEqual(['closed']);

	await page.reload();
	await ready(page);
	await expect(latest(page).getByRole('checkbox', { name: 'Sound' })).toBeChecked();
	await expect(latest(page).getByRole('slider', { name: 'Volume' })).toHaveValue('0.2');
	expect(await sounding()).toEqual([]);
});

test('the sound run lies beside it in the debrief and nowhere before; axe finds nothing on either', async ({ page }) => {
	test.setTimeout(debriefMs + 120_000);
	await listenToFan(page);
	await expect(page.getByText('Without the fault')).toHaveCount(0);
	const examine = async () => {
		for (const details of await page.locator('details').all()) await details.evaluate((one: HTMLDetailsElement) => (one.open = true));
		for (const details of await page.locator('details').all()) await details.evaluate((one: HTMLDetailsElement) => (one.open = true));
		const { violations } = await new AxeBuilder({ page }).analyze();
		expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`)).toEqual([]);
	};
	await examine();
	await page.reload();
	await ready(page);
	await leave(page);
	await debriefed(page);
	await page.evaluate(() => document.querySelectorAll('details').forEach((details) => (details.open = true)));
	const run = page.getByRole('listitem').filter({ has: page.getByRole('heading', { name: listen }) });
	await expect(run.getByText('Without the fault').last()).toBeVisible();
	await expect(run.getByRole('slider', { name: `${listen}, moment read` })).toBeVisible();
	await expect(page.getByRole('rowheader', { name: 'The complaint alone' })).toBeVisible();
	await examine();
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false });
	test('the picture, the words and the table are in the page as it comes', async ({ page }) => {
		await page.goto('/');
		await page.getByRole('button', { name: 'Start a callout' }).click();
		await page.getByRole('radio', { name: /^Tap complained of/ }).check();
		await page.getByRole('button', { name: /^Run it so/ }).click();
		await page.goto(`${page.url().split('?')[0]}?place=fan`);
		await page.getByRole('button', { name: new RegExp(`: ${listen} `) }).click();
		const run = latest(page);
		await expect(run.locator('path[data-signal=fanPercent]')).toBeAttached();
		await expect(run.getByText(/^Fan speed (rises|stays|goes)/)).toBeVisible();
		await run.getByText('The same as a table').click();
		await expect(run.getByRole('cell').first()).toBeVisible();
	});
});
