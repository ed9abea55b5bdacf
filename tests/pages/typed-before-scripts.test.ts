/** On a slow line a page can be written in before its scripts have come. What was written then stays. */
import { expect, test, type Page } from '@playwright/test';
import { signUpAssessor } from './assessor';
import { askFor } from './drill';

/** Opens a page whose scripts come only when they are let through. @returns lets them through and waits until they have taken over */
async function openEarly(page: Page, path: string): Promise<() => Promise<void>> {
	let letThrough: () => void;
	const passage = new Promise<void>((now) => (letThrough = now));
	await page.route('**/*.js', async (route) => {
		await passage;
		await route.continue();
	});
	await page.goto(path, { waitUntil: 'commit' });
	return async () => {
		// The place in which navigations are read out is made by the scripts.
		await expect(page.locator('#svelte-announcer')).toHaveCount(0);
		letThrough();
		await expect(page.locator('#svelte-announcer')).toHaveCount(1);
		await page.unroute('**/*.js');
	};
}

/** Writes and ticks, lets the scripts come, and looks again. */
async function staysWritten(page: Page, path: string, written: readonly string[], ticked: readonly string[] = []): Promise<void> {
	const scripts = await openEarly(page, path);
	const main = page.getByRole('main');
	const box = (name: string) => main.getByLabel(name, { exact: true });
	for (const name of written) await box(name).fill('12.5');
	for (const name of ticked) await main.getByLabel(name).check();
	await scripts();
	for (const name of written) await expect(box(name), `${name} at ${path}`).toHaveValue('12.5');
	for (const name of ticked) await expect(main.getByLabel(name), `${name} at ${path}`).toBeChecked();
}

test('of an account, a code, the settings and a refresher', async ({ page }) => {
	await staysWritten(page, '/sign-up', ['Name', 'Password']);
	await staysWritten(page, '/sign-in', ['Name', 'Password']);
	await staysWritten(page, '/join', ['Code']);
	await staysWritten(page, '/settings', [], ['Slate', 'More contrast']);
	const family = 'Combination boiler with the tap-water coil inside the main exchanger';
	const scripts = await openEarly(page, '/refresher');
	await page.getByRole('radio', { name: family }).check();
	await page.getByRole('checkbox').last().check();
	await scripts();
	await expect(page.getByRole('radio', { name: family })).toBeChecked();
	await expect(page.getByRole('checkbox').last()).toBeChecked();
});

test('of a drill, in figures and by ticking', async ({ page }) => {
	await askFor(page, 'figure');
	await staysWritten(page, page.url(), ['Your figure']);
	await askFor(page, 'one');
	const scripts = await openEarly(page, page.url());
	const last = page.getByRole('main').getByRole('radio').last();
	await last.check();
	await scripts();
	await expect(last).toBeChecked();
});

test('of a new cohort and of its register', async ({ page }) => {
	await signUpAssessor(page);
	await staysWritten(page, '/cohorts', ['Name of a new cohort']);
	await page.getByRole('button', { name: 'Make the cohort' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Register');
	await staysWritten(page, page.url(), ['Names, one a line']);
});
