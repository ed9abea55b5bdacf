/** On a server of its own: the other page tests' server has no owner, as some of them want it. */
import { expect, test, type Browser, type Page } from '@playwright/test';
import { runServer, type RunningServer } from '../running-server';
import { makeDataFolder, removeFolder } from '../test-data';
import { password, signUp } from './account';
import { examine } from './examine';

const folder = makeDataFolder();
let server: RunningServer;
let owner: Page;

test.describe.configure({ mode: 'serial', timeout: 180_000 });
test.beforeAll(async ({ browser }) => {
	server = await runServer(folder);
	owner = await fresh(browser);
	await owner.goto(/(\/owner\/[\w-]+)$/m.exec(server.said())![1]!);
	await owner.getByLabel('Name').fill('Olive Stone');
	await owner.getByLabel('Password').fill(password);
	await owner.getByRole('button', { name: /owner/ }).click();
	await expect(owner.getByText('You are now the owner of this server.')).toBeVisible();
});
test.afterAll(async () => {
	await server?.end();
	removeFolder(folder);
});

const fresh = async (browser: Browser): Promise<Page> => (await browser.newContext({ baseURL: server.address })).newPage();
const give = (name: string) =>
	owner
		.getByRole('row')
		.filter({ has: owner.getByRole('rowheader', { name, exact: true }) })
		.getByRole('button', { name: /^Change/ });

test('an owner finds somebody by a piece of the name and makes them an assessor, who is let in from then on', async ({ browser }) => {
	const other = await fresh(browser);
	await signUp(other, 'Ann Field');
	await signUp(await fresh(browser), 'Bea Moss');
	expect((await other.goto('/people'))!.status()).toBe(403);
	await expect(other.getByRole('heading', { level: 1 })).toHaveText('Not for this account.');
	await expect(other.getByText('This is for whoever owns this server.')).toBeVisible();
	await other.getByRole('link', { name: 'See who is signed in' }).click();
	await expect(other.getByRole('heading', { level: 1 })).toHaveText('Ann Field');

	await owner.goto('/people');
	await expect(owner.getByRole('rowheader')).toHaveText(['Ann Field', 'Bea Moss', 'Olive Stone']);
	await owner.getByLabel('Name', { exact: true }).fill('FIELD');
	await owner.getByRole('button', { name: 'Search' }).click();
	await expect(owner.getByRole('rowheader')).toHaveText(['Ann Field']);
	await owner.getByLabel('Role of Ann Field').selectOption('assessor');
	await give('Ann Field').click();
	await expect(owner.getByText('Ann Field is now an assessor.')).toBeVisible();
	await expect(owner.getByLabel('Role of Ann Field')).toHaveValue('assessor');
	await expect(owner.getByRole('rowheader')).toHaveText(['Ann Field']);
	expect((await other.goto('/cohorts'))!.status()).toBe(200);
});

test('the only owner cannot step down', async () => {
	await owner.goto('/people');
	await owner.getByLabel('Role of Olive Stone').selectOption('learner');
	await give('Olive Stone').click();
	await expect(owner.getByText('Olive Stone is the only owner. Make somebody else one first.')).toBeVisible();
	expect((await owner.goto('/people'))!.status()).toBe(200);
});

test('axe finds nothing among the people and on a refusal, and nothing is wider than the window', async ({ browser }) => {
	const stranger = await fresh(browser);
	await signUp(stranger, 'Cal Reed');
	for (const [page, status] of [
		[owner, 200],
		[stranger, 403]
	] as const) {
		expect((await page.goto('/people'))!.status()).toBe(status);
		await examine(page, `people, ${status}`);
	}
});
