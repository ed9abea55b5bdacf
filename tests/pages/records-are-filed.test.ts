/** What is filed: the record of practice and the statistics of a paper as pages and as PDF, and the statements that were sent. */
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, test, type Page } from '@playwright/test';
import { signUp } from './account';
import { signUpAssessor } from './assessor';
import { examine } from './examine';
import { filedCohort, makeOwner, refusedStatement } from './filed';
import { pdfPages } from './pdf-text';

const name = 'Ruth Ashworth-Penhaligon';
const caution = 'Practiceonly.Itdoesnotlicenseanyone.Gasworkisforthoselicensedforitwheretheyare.';
const someone = () => `Somebody ${randomBytes(4).toString('hex')}`;

/** The page as it would be filed. @returns its pages, without white space */
async function filed(page: Page): Promise<string[]> {
	const pages = pdfPages(await page.pdf({ format: 'A4' }));
	for (const [index, text] of pages.entries()) {
		expect(text, `the foot of page ${index + 1}`).toContain(caution);
		expect(text, `the foot of page ${index + 1}`).toContain('Rulesinforcehere:UnitedKingdom.');
	}
	return pages;
}

test('a learner’s record is one sheet by the register’s name, with a period, and makes a clean PDF', async ({ page }) => {
	const { cohort, member, handle } = filedCohort(await signUpAssessor(page), name);
	await page.goto(`/cohorts/${cohort}/record/${member}`);
	await expect(page.getByText(name)).toBeVisible();
	const papers = page.getByRole('table', { name: /^Marks are final/ });
	await expect(papers.getByRole('row', { name: /Hot water, first paper/ })).toContainText(/30 \/ 30.*passed.*100.%.*locked/);
	const drills = page.getByRole('table', { name: /^Drills by kind/ });
	await expect(
		drills
			.getByRole('row', { name: /^Sums of gas/ })
			.getByRole('cell')
			.first()
	).toHaveText('13');

	const pages = await filed(page);
	expect(pages.length).toBeLessThanOrEqual(2);
	const text = pages.join('');
	for (const said of [name, 'Tuesdaygroup,numberC-1187', 'Itlicensesnobody', 'Sumsofgas', 'Hotwater,firstpaper', '30/30', 'locked'])
		expect(text).toContain(said.replace(/\s/g, ''));
	for (const left of ['Showthisperiod', 'Tonight', handle, '@', 'Slate']) expect(text).not.toContain(left);

	const from = new Date(Date.now() - 10 * 86_400_000).toISOString().slice(0, 10);
	await page.getByLabel('From').fill(from);
	await page.getByRole('button', { name: 'Show this period' }).click();
	await expect(
		drills
			.getByRole('row', { name: /^Sums of gas/ })
			.getByRole('cell')
			.first()
	).toHaveText('3');
	expect((await page.request.get(`/cohorts/${cohort}/record/nobody`)).status()).toBe(404);
});

test('a learner has their own record by way of progress', async ({ page }) => {
	const account = someone();
	await signUp(page, account);
	await page.goto('/progress');
	await page.getByRole('link', { name: 'Record of practice' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Record of practice');
	await expect(page.getByRole('main')).toContainText(account);
	await expect(page.getByRole('main')).toContainText('Nothing was practised in this period.');
	expect((await filed(page)).length).toBe(1);
});

test('statistics say what few sitters can bear, as a page, a file and a PDF', async ({ page }) => {
	const { cohort, paper } = filedCohort(await signUpAssessor(page), name);
	await page.goto(`/cohorts/${cohort}/papers/${paper}/statistics`);
	const items = page.getByRole('table', { name: /^Each place in the paper/ });
	await expect(items.getByRole('row')).toHaveCount(4);
	await expect(items.getByRole('row').nth(1)).toContainText(/\d+.% \d+.% to \d+.%/);
	await expect(page.getByText('Below thirty sitters the correlations stand in grey')).toBeVisible();
	const bands = page.getByRole('table', { name: /^Sitters by their share/ });
	await expect(bands.getByRole('row', { name: /60–70/ })).toContainText('the pass mark, 60');
	await expect(page.getByText('Totals are not turned into each other below 50 sitters')).toBeVisible();

	const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name: 'The items as a file' }).click()]);
	expect(
		readFileSync(await download.path(), 'utf8')
			.trim()
			.split('\r\n')
	).toHaveLength(4);
	const pages = await filed(page);
	expect(pages.length).toBeLessThanOrEqual(3);
	expect(pages.join('')).toContain('Hotwater,firstpaper,Tuesdaygroup');
	expect(pages.join('')).not.toContain('Theitemsasafile');
});

test('below ten sitters no facility is told', async ({ page }) => {
	const { cohort, paper } = filedCohort(await signUpAssessor(page), name, 4);
	await page.goto(`/cohorts/${cohort}/papers/${paper}/statistics`);
	await expect(page.getByRole('table', { name: /^Each place in the paper/ }).getByText('Told from 10 sitters.')).toHaveCount(3);
});

test('an owner sees what was refused, has it tried again, and takes the file', async ({ page }) => {
	const owner = someone();
	await signUp(page, owner);
	expect((await page.request.get('/records')).status()).toBe(403);
	makeOwner(owner);
	const problem = `The store does not take this statement (400), said of ${randomBytes(4).toString('hex')}.`;
	const id = refusedStatement(problem);
	await page.goto('/account');
	await page.getByRole('link', { name: 'records sent' }).click();
	await expect(page.getByRole('row', { name: problem })).toContainText('refused');
	await page.getByRole('button', { name: 'Try all that are left again' }).click();
	await expect(page.getByRole('main').getByRole('status')).toContainText('being tried again');
	await expect(async () => {
		await page.goto('/records');
		await expect(page.getByRole('row', { name: problem })).toHaveCount(0);
	}).toPass();
	const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('link', { name: 'Download the file' }).click()]);
	expect(readFileSync(await download.path(), 'utf8')).toContain(`{"id":"${id}"}\n`);
});

test('axe finds nothing on a record, statistics of few and of many, and the records sent', async ({ page }) => {
	test.setTimeout(180_000);
	const assessor = await signUpAssessor(page);
	const many = filedCohort(assessor, name, 32);
	const few = filedCohort(assessor, name, 4);
	await page.goto(`/cohorts/${many.cohort}/record/${many.member}`);
	await examine(page, 'a record');
	for (const { cohort, paper } of [many, few]) {
		await page.goto(`/cohorts/${cohort}/papers/${paper}/statistics`);
		await examine(page, 'statistics');
	}
	makeOwner(assessor);
	refusedStatement('The store does not take this statement (400).');
	await page.goto('/records');
	await examine(page, 'records sent');
});
