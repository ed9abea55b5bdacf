import { gzipSync } from 'node:zlib';
import { expect, test } from '@playwright/test';
import { choose, openTap, ready, startCallout, take } from './bench';

/** Bytes of JavaScript that the callout page may load in all, as gzip makes them. */
const mostScriptBytes = 90_000;
/** Layout shift that nobody would call a jump. */
const mostShift = 0.02;

test('the callout page loads less than 90 kB of JavaScript', async ({ page }) => {
	const address = await startCallout(page);
	const context = await page
		.context()
		.browser()!
		.newContext({ storageState: await page.context().storageState() });
	const fresh = await context.newPage();
	const scripts = new Map<string, Promise<Buffer>>();
	fresh.on('response', (response) => {
		if (response.request().resourceType() === 'script') scripts.set(response.url(), response.body());
	});
	await fresh.goto(address);
	await ready(fresh);
	await openTap(fresh);
	await choose(fresh, 'Hot tap');
	await take(fresh, 'Tap temperature');
	const inline = await fresh.locator('script:not([src])').evaluateAll((all) => all.map((one) => one.textContent).join(''));
	const sizes = await Promise.all([...scripts.values()].map(async (body) => gzipSync(await body, { level: 6 }).length));
	const total = sizes.reduce((sum, size) => sum + size, 0);
	process.stdout.write(
		`JavaScript of the callout page: ${scripts.size} files, ${total} bytes gzipped; data in the page ${gzipSync(inline).length} bytes\n`
	);
	expect(scripts.size).toBeGreaterThan(3);
	expect(total).toBeGreaterThan(10_000);
	expect(total).toBeLessThan(mostScriptBytes);
	await context.close();
});

for (const width of [360, 1440]) {
	test(`at ${width} nothing jumps while the callout page loads, while it is used, and when it is loaded again`, async ({ page }) => {
		const shift = () => page.evaluate(() => (window as unknown as { shift: number }).shift);
		await page.setViewportSize({ width, height: 800 });
		await page.addInitScript(() => {
			const seen = window as unknown as { shift: number };
			seen.shift = 0;
			new PerformanceObserver((list) => {
				for (const entry of list.getEntries() as (PerformanceEntry & { value: number; hadRecentInput: boolean })[]) {
					if (!entry.hadRecentInput) seen.shift += entry.value;
				}
			}).observe({ type: 'layout-shift', buffered: true });
		});
		await startCallout(page);
		await page.reload();
		await ready(page);
		await openTap(page);
		await choose(page, 'Hot tap');
		await take(page, 'Tap temperature');
		await page.waitForTimeout(700);
		const used = await shift();
		await page.reload();
		await ready(page);
		await page.waitForTimeout(700);
		const again = await shift();
		process.stdout.write(`Layout shift at ${width}: ${used.toFixed(4)}, with readings loaded again ${again.toFixed(4)}\n`);
		expect(used).toBeLessThan(mostShift);
		expect(again).toBeLessThan(mostShift);
	});
}
