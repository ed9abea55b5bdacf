import { expect, test, type Locator, type Page } from '@playwright/test';
import { signUp } from './account';
import { signUpAssessor } from './assessor';
import { drawn, drawnMs, makeCohort, makePaper, setButton, setPaper } from './draft-paper';
import { examine } from './examine';

test.describe.configure({ timeout: drawnMs + 120_000 });

test('from nothing to a paper that is set in at most twelve interactions, with three of its fields changed on the way', async ({
	page
}) => {
	await signUpAssessor(page);
	let interactions = 0;
	const click = (what: Locator) => (interactions++, what.click());
	const fill = (what: Locator, text: string) => (interactions++, what.fill(text));
	await page.goto('/');
	await click(page.getByRole('link', { name: 'Cohorts' }));
	await fill(page.getByLabel('Name of a new cohort'), 'Tuesday group');
	await click(page.getByRole('button', { name: 'Make the cohort' }));
	await click(page.getByRole('main').getByRole('link', { name: 'Tuesday group' }));
	await click(page.getByRole('link', { name: 'Make a paper' }));
	await fill(page.getByLabel('Title'), 'Hot water, first paper');
	await fill(page.getByRole('spinbutton', { name: 'Sums of water, drills' }), '2');
	await fill(page.getByLabel('Minutes'), '50');
	await click(page.getByRole('button', { name: 'Make this paper' }));
	await page.waitForURL(/\/papers\/[\w-]{36}$/);
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Hot water, first paper');
	// The page goes on by itself while the variants are drawn: nothing is pressed.
	await drawn(page);
	await expect(page.getByRole('table', { name: /^How hard each variant is thought to be/ }).getByRole('row')).toHaveCount(5);
	await click(setButton(page));
	await expect(page.getByRole('heading', { name: 'Who has sat' })).toBeVisible();
	await expect(page.getByRole('main')).toContainText('Open, formal');
	expect(interactions).toBe(10);
	expect(interactions).toBeLessThanOrEqual(12);
});

test('what the minutes are suggested to be follows the table; a form turned away is as it was written', async ({ page }) => {
	await signUpAssessor(page);
	const cohort = await makeCohort(page);
	await page.goto(`${cohort}/papers/new`);
	const hint = page.getByText(/^What is asked for is thought to take/);
	const before = Number(/\d+/.exec((await hint.textContent())!)![0]);
	// A kind of drill that is thought to take two minutes, ten times.
	await page.getByRole('spinbutton', { name: 'Sums of gas, drills' }).fill('10');
	// Also what is written before the scripts are there counts.
	await expect(hint).toContainText(`take ${before + 20}.`);
	await page.getByLabel('Title').fill('x');
	await page.getByLabel('Callouts to be cured').fill('9');
	await page.getByRole('button', { name: 'Make this paper' }).click();
	await expect(page.getByText('A title has 2 to 80 characters.')).toBeVisible();
	await expect(page.getByRole('spinbutton', { name: 'Sums of gas, drills' })).toHaveValue('10');
	await expect(page.getByLabel('Title')).toBeFocused();
	await page.getByLabel('Title').fill('Gas');
	await page.getByRole('button', { name: 'Make this paper' }).click();
	await expect(page.getByText('The paper has 3 callouts; no more can be cured.')).toBeVisible();
	expect(new URL(page.url()).pathname).toBe(`${cohort}/papers/new`);
});

/** As a form writes it, by the same clock. */
const monthLater = (written: string) => new Date(Date.parse(`${written}Z`) + 30 * 86_400_000).toISOString().slice(0, 16);

test('a draft is looked at, changed, judged and set; then its window is made longer and it is copied', async ({ page }) => {
	await signUpAssessor(page);
	const cohort = await makeCohort(page);
	const path = await makePaper(page, cohort);
	// What is written in the form stays while the page follows the drawing.
	await page.getByText('Change it').click();
	await page.getByLabel('Title').fill('Sensing');
	await drawn(page);
	await expect(page.getByLabel('Title')).toHaveValue('Sensing');
	await page.getByRole('button', { name: 'Keep the changes' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Sensing');
	await drawn(page);

	const first = page.getByRole('link', { name: 'Variant 1' });
	await first.click();
	await expect(page.getByText('Hidden fault', { exact: true })).toBeVisible({ timeout: drawnMs });
	await expect(page.getByText('Not for learners.')).toBeVisible();
	await expect(page.getByRole('table', { name: /^Its sound path/ })).toContainText('In all');
	await expect(page.getByRole('heading', { name: 'The answer' })).toHaveCount(2);
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByText('Not for learners.')).toBeVisible();
	await expect(page.getByRole('navigation', { name: 'Variants' })).toBeHidden();
	await page.emulateMedia({ media: 'screen' });

	await page.goto(`${path}/standard`);
	for (const [row, judge] of ['Ines Vale', 'Rob Quill'].entries()) {
		await page.getByLabel(`Name of judge ${row + 1}`).fill(judge);
		for (const cell of await page.getByRole('spinbutton', { name: new RegExp(`^Judge ${row + 1},`) }).all())
			await cell.fill(row ? '70' : '60');
	}
	await page.getByRole('button', { name: 'Keep the estimates' }).click();
	await expect(page.getByText('Kept.')).toBeVisible();
	// Two sums over all marks of 60 and 70 percent: their mean, and half of their difference as its error.
	await expect(page.getByRole('main')).toContainText('65.0');
	await expect(page.getByRole('main')).toContainText('Standard error 5.0');
	await page.getByRole('button', { name: 'Use this as the pass mark' }).click();
	await expect(page.getByText('The pass mark in force is 65')).toBeVisible();

	await page.goto(path);
	await setPaper(page);
	await expect(page.getByRole('button', { name: /^(Keep the changes|Draw other variants)$/ })).toHaveCount(0);
	const closes = page.getByLabel('Closes');
	await closes.fill(monthLater(await closes.inputValue()));
	await page.getByRole('button', { name: 'Change it', exact: true }).click();
	await expect(page.getByText('Say why, in 3 to 300 characters.')).toBeVisible();
	await page.getByLabel('Reason').fill('Two of them were ill.');
	await page.getByRole('button', { name: 'Change it', exact: true }).click();
	await expect(page.getByText(/^Its end was changed on .*: Two of them were ill\.$/)).toBeVisible();
	await page.getByRole('button', { name: 'Copy it' }).click();
	await page.waitForURL((url) => url.pathname !== path);
	await expect(page.getByRole('main')).toContainText('Draft');
});

/** Goes on with Tab until the focus is on what bears this name. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
	for (let i = 0; i < 200; i++) {
		await page.keyboard.press('Tab');
		const at = await page.evaluate(() => {
			const on = document.activeElement;
			const labels = on instanceof HTMLInputElement ? [...(on.labels ?? [])].map((label) => label.innerText).join(' ') : '';
			return (on?.getAttribute('aria-label') ?? (labels || on?.textContent || '')).replace(/\s+/g, ' ').trim();
		});
		if (name.test(at)) return;
	}
	throw new Error(`Tab does not reach ${name}`);
}

test('a paper is made and set by keyboard alone', async ({ page }) => {
	await signUpAssessor(page);
	const cohort = await makeCohort(page);
	await page.goto(`${cohort}/papers/new`);
	await tabTo(page, /^Title$/);
	await page.keyboard.press('Control+a');
	await page.keyboard.type('By keys');
	await tabTo(page, /^Combi.*: any area$/i);
	await page.keyboard.press('Control+a');
	await page.keyboard.type('1');
	await tabTo(page, /^Callouts to be cured$/);
	await page.keyboard.press('Control+a');
	await page.keyboard.type('1');
	await tabTo(page, /^One dangerous act/);
	await page.keyboard.press('Space');
	await tabTo(page, /^Make this paper$/);
	await page.keyboard.press('Enter');
	await page.waitForURL(/\/papers\/[\w-]{36}$/);
	await drawn(page);
	await expect(page.getByRole('main')).not.toContainText('no dangerous act');
	await page.locator('#main').focus();
	await tabTo(page, /^Set this paper$/);
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { name: 'Who has sat' })).toBeVisible();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('By keys');
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false });
	test('a paper is made, drawn, previewed, set and made longer', async ({ page }) => {
		await signUpAssessor(page);
		const path = await makePaper(page, await makeCohort(page));
		await drawn(page);
		await page.getByRole('link', { name: 'Variant 2' }).click();
		await expect(page.getByText('Hidden fault', { exact: true }).first()).toBeVisible({ timeout: drawnMs });
		await page.goto(path);
		await setPaper(page);
		const closes = page.getByLabel('Closes');
		await closes.fill(monthLater(await closes.inputValue()));
		await page.getByLabel('Reason').fill('As long as it takes.');
		await page.getByRole('button', { name: 'Change it', exact: true }).click();
		await expect(page.getByText(/^Its end was changed on .*: As long as it takes\.$/)).toBeVisible();
	});
});

test('axe finds nothing on a new paper, one turned away, a draft, a variant, a standard and a paper that is set', async ({ page }) => {
	await signUpAssessor(page);
	const cohort = await makeCohort(page);
	await page.goto(`${cohort}/papers/new`);
	await examine(page, 'a new paper');
	await page.getByLabel('Title').fill('');
	await page.getByRole('spinbutton', { name: 'Sums of gas, drills' }).fill('50');
	await page.getByRole('button', { name: 'Make this paper' }).click();
	await expect(page.getByText('Each number is a whole one from 0 to 20.')).toBeVisible();
	await examine(page, 'a new paper turned away');
	const path = await makePaper(page, cohort);
	await examine(page, 'a draft being drawn');
	await page.goto(path);
	await drawn(page);
	await examine(page, 'a draft');
	await page.goto(`${path}/variant/1`);
	await expect(page.getByText('Hidden fault', { exact: true }).first()).toBeVisible({ timeout: drawnMs });
	await examine(page, 'a variant');
	await page.goto(`${path}/standard`);
	await examine(page, 'a standard without judges');
	await page.getByLabel('Name of judge 1').fill('Ines Vale');
	for (const cell of await page.getByRole('spinbutton', { name: /^Judge 1,/ }).all()) await cell.fill('62.5');
	await page.getByRole('button', { name: 'Keep the estimates' }).click();
	await expect(page.getByText('Kept.')).toBeVisible();
	await examine(page, 'a standard');
	await page.goto(path);
	await setPaper(page);
	await examine(page, 'a paper that is set');
});

test('forms sent by hand are refused with an answer, and make nothing', async ({ page, browser }) => {
	await signUpAssessor(page);
	const cohort = await makeCohort(page);
	const path = await makePaper(page, cohort);
	const { origin } = new URL(page.url());
	const send = (to: string, form: Record<string, string>) =>
		page.request.post(to, { form, headers: { origin, accept: 'text/html' }, maxRedirects: 0 });
	const wrong: [string, Record<string, string>, number][] = [
		[`${cohort}/papers/new`, {}, 400],
		[`${cohort}/papers/new`, { title: 'x'.repeat(100_000), 'callout/../any': '1' }, 400],
		[`${cohort}/papers/new`, { title: 'Right', 'drill/reading': '1e3', opens: '0000-00-00T00:00', closes: '9999-99-99T99:99' }, 400],
		['/cohorts/no-such-cohort/papers/new', { title: 'Right' }, 404],
		[`${path}?/change`, { title: 'Right' }, 400],
		[`${path}?/extend`, { closes: '2150-01-01T10:00', reason: 'Because.' }, 409],
		[`${path}?/copy`, {}, 404],
		[`${path}?/copy`, { cohort: 'no-such-cohort' }, 404],
		[`${cohort}/papers/no-such-paper?/set`, {}, 404],
		[`${path}?/unset`, {}, 403],
		[`${path}/standard?/take`, { reason: 'Because.' }, 409],
		[`${path}/standard?/keep`, { 'judge/0': 'Ines', 'expected/0/0': 'NaN' }, 400]
	];
	for (const [to, form, status] of wrong)
		expect((await send(to, form)).status(), `${to} ${JSON.stringify(form).slice(0, 80)}`).toBe(status);
	for (const number of ['0', '4', '-1', '1e0', 'x', '999999999999'])
		expect((await page.request.get(`${path}/variant/${number}`)).status()).toBe(404);
	await page.goto(cohort);
	await expect(page.getByRole('main').getByRole('link', { name: /Paper \d/ })).toHaveCount(1);

	// Neither a learner nor another assessor gets anywhere.
	const other = await browser.newContext();
	const stranger = await other.newPage();
	await signUp(stranger, `Learner ${Date.now()}`);
	for (const to of ['', '/standard', '/variant/1']) expect((await stranger.request.get(path + to)).status()).toBe(403);
	await other.close();
	const third = await browser.newContext();
	const colleague = await third.newPage();
	await signUpAssessor(colleague);
	for (const to of ['', '/standard', '/variant/1']) expect((await colleague.request.get(path + to)).status()).toBe(404);
	const tried = await colleague.request.post(`${path}?/set`, { form: {}, headers: { origin, accept: 'text/html' }, maxRedirects: 0 });
	expect(tried.status()).toBe(404);
	await third.close();
});
