import { readFileSync } from 'node:fs';
import { expect, test, type Page } from '@playwright/test';
import { parse } from 'yaml';
import { labelBox } from '../../src/lib/bench/drawing/layout';
import { paceOfWord } from '../../src/lib/bench/drawing/places/motion';
import type { Drawing } from '../../shared/scenario/schema';
import { choose, openTap, ready, startCallout } from './bench';

async function takeCasingOff(page: Page): Promise<void> {
	await page.getByText('Make safe and open up').click();
	await page.getByRole('button', { name: /: Take the casing off/ }).click();
	await expect(page.locator('.slip:visible')).toContainText('Take the casing off');
}
/** The moving part of the place that is looked at: how it moves, and whether the browser moves it. */
const moving = (page: Page) =>
	page.locator('.symbol.chosen .moves').evaluate((part) => ({
		pace: part.getAttribute('data-pace'),
		moves: getComputedStyle(part).animationName !== 'none'
	}));
const opacity = (page: Page, selector: string) =>
	page
		.locator(`figure ${selector}`)
		.first()
		.evaluate((one) => Number(getComputedStyle(one).opacity));

for (const javaScriptEnabled of [true, false]) {
	test.describe(javaScriptEnabled ? 'with scripts' : 'without scripts', () => {
		test.use({ javaScriptEnabled });

		test('one path at a time, chosen by keyboard; the others fade', async ({ page }) => {
			await startCallout(page);
			expect(await opacity(page, '.run.cold')).toBe(1);
			await page.getByRole('radio', { name: 'All', exact: true }).focus();
			await page.keyboard.press('ArrowDown');
			await expect(page.getByRole('radio', { name: /^Primary/ })).toBeChecked();
			await page.keyboard.press('ArrowDown');
			await expect(page.getByRole('radio', { name: /^Tap water/ })).toBeFocused();
			expect(await opacity(page, '.run.cold')).toBe(1);
			expect(await opacity(page, '.run.gas')).toBeLessThan(0.5);
			await expect(page.getByText(/^Tap water: .*Inlet filter/)).toBeVisible();
			await expect(page.getByText(/^Gas: /)).toBeHidden();
			const names = await page.locator('text.name').evaluateAll((all) => all.map((one) => Number(getComputedStyle(one).opacity)));
			expect(Math.min(...names), 'names stay legible').toBeGreaterThanOrEqual(0.7);
		});

		test('the family page puts the casing on by a switch', async ({ page }) => {
			await page.goto('/families/combi-plate-primary');
			await expect(page.locator('.veil')).toBeHidden();
			await page.getByRole('checkbox', { name: 'Casing on' }).focus();
			await page.keyboard.press('Space');
			await expect(page.locator('.veil')).toBeVisible();
		});
	});
}

test('the casing veils what is inside until it is taken off; a check there says so', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await expect(page.locator('.veil')).toBeVisible();
	await choose(page, 'Pump');
	await expect(page.locator('#place')).toContainText('The casing must be off');
	await takeCasingOff(page);
	await expect(page.locator('.veil')).toBeHidden();
	await expect(page.locator('#place')).not.toContainText('The casing must be off');
});

test('a part moves only as it was noticed, under the demand that stands', async ({ page }) => {
	await startCallout(page);
	await ready(page);
	await choose(page, 'Fan');
	expect(await moving(page)).toEqual({ pace: null, moves: false });
	await openTap(page);
	const noticed = (await page.locator('p.noticed').textContent())!;
	const heard = /fan runs: silent/.test(noticed) ? 'silent' : 'runs';
	expect(await moving(page)).toEqual({ pace: paceOfWord['fan']![heard], moves: heard === 'runs' });
	// The pump, which no one listened to, does not move whatever it does.
	await choose(page, 'Pump');
	expect(await moving(page)).toEqual({ pace: null, moves: false });
	await takeCasingOff(page);
	expect(await moving(page)).toEqual({ pace: null, moves: false });
	await page.getByRole('button', { name: /: Pump \d/ }).click();
	await expect(page.locator('[data-tag="pump"]')).toBeVisible();
	const hum = (await page.locator('[data-tag="pump"] text').first().textContent())!.replace('…', '');
	const word = Object.keys(paceOfWord['pump']!).find((known) => known.startsWith(hum))!;
	expect((await moving(page)).pace).toBe(paceOfWord['pump']![word]);
	// Under another demand it was not listened to.
	await page.getByRole('radio', { name: /^Heating called for/ }).check();
	await page.getByRole('button', { name: /^Run it so/ }).click();
	await expect(page.locator('.slip:visible')).toContainText('Demand: Heating called for');
	expect(await moving(page)).toEqual({ pace: null, moves: false });
});

for (const reducedMotion of ['no-preference', 'reduce'] as const) {
	test(`with motion at "${reducedMotion}" a reading ${reducedMotion === 'reduce' ? 'is there at once and a word says what moves' : 'travels to the sheet and is gone'}`, async ({
		browser
	}) => {
		const context = await browser.newContext({ reducedMotion });
		const page = await context.newPage();
		await startCallout(page);
		await ready(page);
		await choose(page, 'Fan');
		await page.evaluate(() => {
			const seen: string[] = [];
			Object.assign(window, { seen });
			new MutationObserver((all) => {
				for (const { addedNodes } of all)
					for (const node of addedNodes) if (node instanceof HTMLElement && node.classList.contains('flight')) seen.push(node.innerText);
			}).observe(document.body, { childList: true, subtree: true });
		});
		await openTap(page);
		await expect(page.locator('[data-tag="fan"]')).toBeVisible();
		await page.waitForTimeout(400);
		const seen = await page.evaluate(() => (window as unknown as { seen: string[] }).seen.length);
		if (reducedMotion === 'reduce') {
			expect(seen).toBe(0);
			expect((await moving(page)).moves).toBe(false);
		} else expect(seen).toBeGreaterThan(0);
		await expect(page.locator('.flight')).toHaveCount(0);
		await expect(page.locator('.bar')).toContainText(/Fan: .*It (turns|stands still)/);
		await context.close();
	});
}

test('names take no more room than tags leave them, and what a tag says fits in it', async ({ page }) => {
	const drawing = parse(readFileSync('scenarios/drawings/combi-plate-primary.yaml', 'utf8')) as Drawing;
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await page.evaluate(() => document.fonts.ready);
	const boxes = await page
		.locator('text.name')
		.evaluateAll((all) =>
			all.map((one) => (one as SVGGraphicsElement).getBBox()).map(({ x, y, width, height }) => ({ x, y, width, height }))
		);
	expect(boxes.length).toBe(drawing.places.length);
	for (const [i, place] of drawing.places.entries()) {
		// A box of type has room above capitals and under the baseline that no ink fills; across, it is the ink's own.
		const room = labelBox({ ...place, turn: 0 });
		expect(boxes[i]!.x, place.name).toBeGreaterThanOrEqual(room.left - 0.5);
		expect(boxes[i]!.x + boxes[i]!.width, place.name).toBeLessThanOrEqual(room.right + 0.5);
	}
	const over = await page.locator('.pin').evaluateAll((pins) =>
		pins.flatMap((pin) => {
			const tag = pin.querySelector('.tag')!.getBoundingClientRect();
			return [...pin.querySelectorAll('text')]
				.filter((text) => text.getBoundingClientRect().right > tag.right + 0.5)
				.map((text) => text.textContent);
		})
	);
	expect(over).toEqual([]);
});
