import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** Axe finds nothing on the page as it stands. */
export async function axeFindsNothing(page: Page, where: string): Promise<void> {
	const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
	const found = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`);
	expect(found, where).toEqual([]);
}

/** The page as it stands cannot be pushed sideways. */
export async function staysInTheWindow(page: Page, where: string): Promise<void> {
	const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
	expect(over, `${where} can be pushed sideways`).toBeLessThanOrEqual(0);
}

interface Look {
	/** Of the window [px]. */
	readonly width: number;
	/** The theme that it is looked at in; left out, the one that it has. */
	readonly colorScheme?: 'light' | 'dark';
}
/** Each theme and each end of the widths once: what depends on one of them shows, at half the time of all four. */
const onAPhoneAndAWall: readonly Look[] = [
	{ width: 360, colorScheme: 'light' },
	{ width: 1440, colorScheme: 'dark' }
];

/**
 * Axe finds nothing and nothing can be pushed sideways, whatever is opened.
 * @param where  words for what failed
 */
export async function examine(page: Page, where: string, looks: readonly Look[] = onAPhoneAndAWall): Promise<void> {
	const before = page.viewportSize();
	await page.evaluate(() => document.querySelectorAll('details').forEach((details) => (details.open = true)));
	for (const { width, colorScheme } of looks) {
		const at = [where, colorScheme, `at ${width}`].filter(Boolean).join(', ');
		if (colorScheme) await page.emulateMedia({ colorScheme });
		await page.setViewportSize({ width, height: 900 });
		await staysInTheWindow(page, at);
		// The whole page in the window: what sticks to an edge then lies over nothing that a scroll would free.
		const height = await page.evaluate(() => document.documentElement.scrollHeight);
		await page.setViewportSize({ width, height: Math.max(900, height) });
		await axeFindsNothing(page, at);
	}
	if (before) await page.setViewportSize(before);
}
