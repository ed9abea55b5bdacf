import { expect, test } from '@playwright/test';
import { openTap, ready, startCallout } from './bench';

for (const [reducedMotion, moves] of [
	['no-preference', true],
	['reduce', false]
] as const) {
	test(`with motion at "${reducedMotion}" a new reading ${moves ? 'is inked in' : 'is simply there'}`, async ({ browser }) => {
		const context = await browser.newContext({ reducedMotion });
		const page = await context.newPage();
		await startCallout(page);
		await ready(page);
		await openTap(page);
		const longest = await page.evaluate(() => {
			const seconds = (said: string) => Math.max(...said.split(',').map(parseFloat));
			const each = [...document.querySelectorAll('*')].map((one) => getComputedStyle(one));
			return Math.max(...each.flatMap((style) => [seconds(style.animationDuration), seconds(style.transitionDuration)]));
		});
		expect(longest).toBe(moves ? 0.15 : 0);
		await context.close();
	});
}
