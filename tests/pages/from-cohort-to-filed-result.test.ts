import { randomBytes } from 'node:crypto';
import { expect, test, type Browser, type Page } from '@playwright/test';
import { password, signUp } from './account';
import { signUpAssessor } from './assessor';
import { debriefMs, openTap } from './bench';
import { askingKind } from './drill';
import { drawn, drawnMs, makeCohort, makePaper, setPaper } from './draft-paper';

test.describe.configure({ timeout: drawnMs + debriefMs });

const tag = randomBytes(3).toString('hex');
const learners = ['Ada Merrow', 'Bram Tolley', 'Cleo Vance'].map((name) => `${name} ${tag}`);

/** A browser of its own, with an account that has joined. */
async function join(browser: Browser, link: string, name: string): Promise<Page> {
	const page = await (await browser.newContext({ viewport: { width: 360, height: 740 } })).newPage();
	await signUp(page, name);
	await page.goto(link);
	await page.getByRole('button', { name: 'Join' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('You are in.');
	return page;
}

async function beginPaper(page: Page, title: string): Promise<void> {
	await page.goto('/papers');
	await page.getByRole('link', { name: title, exact: true }).click();
	await page.getByRole('button', { name: 'Begin, the clock starts' }).click();
	await page.waitForURL(/\/sitting\/[\w-]+$/);
}

/** Runs the tap, leaves, answers what is asked, and hands in. */
async function sit(page: Page): Promise<void> {
	const sitting = page.url();
	await page.getByRole('button', { name: /^Begin 1$/ }).click();
	await page.waitForURL(/\/callout\/[\w-]+/);
	await openTap(page);
	await page.getByRole('navigation', { name: 'Places' }).getByRole('link', { name: /sheet/i }).click();
	await page.getByText('Tell the customer and leave').click();
	await page.getByRole('checkbox', { name: /^I am done here/ }).check();
	await page.getByRole('button', { name: /^Leave \d+ min$/ }).click();
	await page.waitForURL(sitting);
	for (const number of [2, 3]) {
		await page.getByRole('button', { name: new RegExp(`^Begin ${number}$`) }).click();
		await page.waitForURL(/\/drill\/[\w-]+$/);
		if ((await askingKind(page)) === 'figure') await page.getByRole('textbox', { name: 'Your figure' }).fill('12.5');
		else await page.getByRole('main').getByRole('radio').first().check();
		await page.getByRole('button', { name: 'Answer' }).click();
		await page.goto(sitting);
	}
	await page.getByRole('link', { name: 'Hand in' }).click();
	await page.getByRole('button', { name: 'Hand in for good' }).click();
}

test('an assessor goes from signing in to the exported mark sheet, with three learners sitting at once', async ({ page, browser }) => {
	const assessor = await signUpAssessor(page);
	await page.context().clearCookies();
	await page.goto('/cohorts');
	await page.getByLabel('Name').fill(assessor);
	await page.getByLabel('Password').fill(password);
	await page.getByRole('button', { name: 'Sign in' }).click();
	await page.waitForURL('/cohorts');

	const cohort = await makeCohort(page, `Evening group ${tag}`);
	const link = new URL((await page.getByRole('link', { name: /\/join\// }).getAttribute('href'))!).pathname;
	const sitters = await Promise.all(learners.map((name) => join(browser, link, name)));

	const paper = await makePaper(page, cohort);
	await drawn(page);
	await page.getByText('Change it').click();
	const title = `First paper ${tag}`;
	await page.getByLabel('Title').fill(title);
	await page.getByRole('radio', { name: /^Practice/ }).check();
	await page.getByRole('button', { name: 'Keep the changes' }).click();
	await drawn(page);
	await setPaper(page);

	await page.goto(`${paper}/live`);
	await Promise.all(sitters.map((sitter) => beginPaper(sitter, title)));
	// The wall follows by itself.
	for (const name of learners) await expect(page.getByRole('row').filter({ hasText: name })).toBeVisible({ timeout: 20_000 });
	await Promise.all(sitters.map(sit));
	await expect(page.getByText(/handed in/i).first()).toBeVisible({ timeout: 20_000 });

	await expect(async () => {
		await page.goto(`${paper}/sheets`);
		await expect(page.getByText(/^3 sittings marked/)).toBeVisible({ timeout: 500 });
	}).toPass({ timeout: debriefMs });
	for (const sitter of sitters) {
		await sitter.reload();
		await expect(sitter.getByRole('heading', { level: 1 })).toHaveText(/^(Passed|Not passed), \d/);
		await sitter.context().close();
	}

	await page.getByRole('link', { name: learners[1]! }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(learners[1]!);
	await expect(page.getByRole('table', { name: 'Marks, line by line' })).toBeVisible();
	await page.goto(`${paper}/sheets`);
	await page.getByRole('button', { name: 'Lock all 3 that are ready' }).click();
	await expect(page.getByText('3 sheets locked.')).toBeVisible();
	const file = await page.request.get(`${paper}/sheets/results.csv`);
	expect(file.headers()['content-type']).toContain('text/csv');
	const rows = (await file.text()).trim().split('\r\n');
	expect(rows).toHaveLength(1 + learners.length);
	for (const [index, name] of learners.entries()) expect(rows[index + 1]).toContain(name);
});
