import { expect, test, type Page } from '@playwright/test';
import { password, signUp } from './account';
import { signUpAssessor } from './assessor';
import { examine } from './examine';

let count = 0;
const unique = (name: string) => `${name} ${Date.now() % 1e7} ${++count}`;

async function makeCohort(page: Page): Promise<string> {
	const name = unique('Tuesdays');
	await page.goto('/cohorts');
	await page.getByLabel('Name of a new cohort').fill(name);
	await page.getByRole('button', { name: 'Make the cohort' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Register');
	return name;
}

const linkOf = async (page: Page) => new URL((await page.getByRole('link', { name: /\/join\// }).getAttribute('href'))!).pathname;

test('an assessor makes a cohort, invites by name, and its learner joins by the link, signing up on the way', async ({ page, browser }) => {
	test.setTimeout(180_000);
	await signUpAssessor(page);
	await page.getByRole('navigation', { name: 'Site' }).getByRole('link', { name: 'Cohorts' }).click();
	await examine(page, 'the list of cohorts');
	const cohort = await makeCohort(page);
	await page.getByLabel('Names, one a line').fill('name,reference,extra time\nCatherine Cole,2041,25\n=1+1,2042,');
	await page.getByRole('button', { name: 'Look them over' }).click();
	await expect(page.getByText('1 line cannot be taken.')).toBeVisible();
	await expect(page.getByRole('button', { name: /^Add \d/ })).toHaveCount(0);
	await examine(page, 'names with a problem');
	await page.getByLabel('Names, one a line').fill('name,reference,extra time\nCatherine Cole,2041,25\nDan Dean,2042,');
	await page.getByRole('button', { name: 'Look them over' }).click();
	await page.getByRole('button', { name: 'Add 2 names' }).click();
	await expect(page.getByRole('status').filter({ hasText: 'The names are on the register' })).toBeVisible();
	await examine(page, 'the register');
	await page.setViewportSize({ width: 1280, height: 800 });
	await page.getByRole('link', { name: '2 invitations to print' }).click();
	const slip = page.getByRole('listitem').filter({ hasText: 'Catherine Cole' });
	await expect(slip.getByRole('img')).toBeVisible();
	const link = /\/join\/\w{8}/.exec((await slip.textContent())!)![0];
	await examine(page, 'slips');

	const learner = await (await browser.newContext()).newPage();
	await learner.goto(link);
	await expect(learner.getByRole('heading', { level: 1 })).toHaveText(`Join ${cohort}`);
	await expect(learner.getByText('You are invited as')).toContainText('Catherine Cole');
	await expect(learner.getByRole('heading', { name: 'What is seen of you' })).toBeVisible();
	await examine(learner, 'an invitation');
	await learner.getByRole('link', { name: 'Sign up' }).click();
	await learner.getByLabel('Name').fill(unique('Cat'));
	await learner.getByLabel('Password').fill(password);
	await learner.getByRole('button', { name: 'Sign up' }).click();
	await learner.getByRole('button', { name: 'Join' }).click();
	await expect(learner.getByRole('heading', { level: 1 })).toHaveText('You are in.');
	await expect(learner.getByRole('link', { name: 'Papers' }).first()).toBeVisible();
	await learner.reload();
	await expect(learner.getByText('as Catherine Cole')).toBeVisible();
	await examine(learner, 'joined');

	await page.goto('/cohorts');
	await page.getByRole('link', { name: cohort }).click();
	await expect(page.getByRole('row').filter({ hasText: 'Catherine Cole' })).toContainText('never');
	await examine(page, 'the cohort');
	await page.setViewportSize({ width: 1280, height: 800 });
	await page
		.getByRole('button', { name: /^Project one/ })
		.first()
		.click();
	await expect(page).toHaveURL(/\/callout\/[\w-]+$/);

	await learner.goto('/account');
	await examine(learner, 'an account in a cohort');
	await learner.reload();
	const leave = learner.locator('details').filter({ hasText: `Leave ${cohort}` });
	await leave.locator('summary').click();
	await leave.getByRole('button', { name: `Leave ${cohort} now` }).click();
	await expect(learner.getByRole('status').filter({ hasText: 'You have left.' })).toBeVisible();
	await learner.context().close();
	await page.goBack();
	await page.reload();
	await expect(page.getByRole('row').filter({ hasText: 'Catherine Cole' })).toHaveCount(0);
});

test('a learner joins by the code on the wall, typed by hand; it is renewed, and then opens nothing', async ({ page, browser }) => {
	test.setTimeout(120_000);
	await signUpAssessor(page);
	const cohort = await makeCohort(page);
	const code = (await linkOf(page)).split('/').at(-1)!;
	await expect(page.getByAltText('QR code of the link to join')).toBeVisible();
	const learner = await (await browser.newContext()).newPage();
	await signUp(learner, unique('Dan'));
	await learner.getByRole('link', { name: 'Join a cohort by its code' }).click();
	await learner.getByLabel('Code').fill('CDFG CDFH');
	await learner.getByRole('button', { name: 'Go on' }).click();
	await expect(learner.getByText('No invitation has that code.')).toBeVisible();
	await examine(learner, 'a code that opens nothing');
	await learner.getByLabel('Code').fill(`${code.slice(0, 4)} ${code.slice(4)}`.toLowerCase());
	await learner.getByRole('button', { name: 'Go on' }).click();
	await learner.getByRole('button', { name: 'Join' }).click();
	await expect(learner.getByText(`You are on the register of ${cohort}`)).toBeVisible();
	await page.getByRole('button', { name: 'Renew the code' }).click();
	await expect(page.getByRole('status').filter({ hasText: 'The code is renewed' })).toBeVisible();
	const other = await (await browser.newContext()).newPage();
	expect((await other.goto(`/join/${code}`))!.status()).toBe(404);
	await other.context().close();
	await learner.context().close();
});

test('a cohort is not there for another assessor, and its pages and forms are not for a learner', async ({ page, browser }) => {
	await signUpAssessor(page);
	await makeCohort(page);
	const path = new URL(page.url()).pathname;
	const other = await (await browser.newContext()).newPage();
	await signUpAssessor(other);
	for (const one of [path, path.replace('/register', ''), `${path}/invitations`]) expect((await other.goto(one))!.status(), one).toBe(404);
	const origin = new URL(page.url()).origin;
	const archived = await other.request.post(`${path}?/archive`, { form: {}, headers: { origin } });
	expect(archived.status()).toBe(404);
	await other.context().close();

	const learner = await (await browser.newContext()).newPage();
	await signUp(learner, unique('Eve'));
	for (const one of ['/cohorts', path]) expect((await learner.goto(one))!.status(), one).toBe(403);
	expect((await learner.request.post(`${path}?/archive`, { form: {}, headers: { origin } })).status()).toBe(403);
	await expect(learner.getByRole('link', { name: 'Cohorts' })).toHaveCount(0);
	await learner.context().close();
});

test('a file of names is looked over before anything is added; one of 2 MB, or that is no text, is turned away', async ({ page }) => {
	await signUpAssessor(page);
	await makeCohort(page);
	const path = new URL(page.url()).pathname;
	const origin = new URL(page.url()).origin;
	const send = async (name: string, buffer: Buffer) => {
		await page.getByLabel('Or a CSV file').setInputFiles({ name, mimeType: 'text/csv', buffer });
		await page.getByRole('button', { name: 'Look them over' }).click();
	};
	await send('picture.csv', Buffer.from([0x50, 0x4b, 3, 4, 0, 0, 1]));
	await expect(page.getByText('That file is no text.')).toBeVisible();
	await send('long.csv', Buffer.alloc(150_000, 'Learner\n'));
	await expect(page.getByText('That file is larger than 100 kB.')).toBeVisible();
	const huge = { name: 'huge.csv', mimeType: 'text/csv', buffer: Buffer.alloc(2_000_000, 'Learner\n') };
	const answer = await page.request.post(`${path}?/look`, {
		multipart: { names: '', file: huge },
		headers: { origin, accept: 'text/html' }
	});
	expect(answer.status()).toBe(413);
	await page.goto(path);
	await send('names.csv', Buffer.from('Learner;Number\r\nZo\u00eb Young;7\r\nAbe Ash;8\r\n', 'latin1'));
	await expect(page.getByRole('row').filter({ hasText: 'Zoë Young' })).toContainText('7');
	await expect(page.getByRole('heading', { name: '0 names' })).toBeVisible();
	await page.getByRole('button', { name: 'Add 2 names' }).click();
	await expect(page.getByRole('heading', { name: '2 names' })).toBeVisible();
});
