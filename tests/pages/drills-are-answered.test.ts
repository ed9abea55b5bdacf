import { expect, test, type Page } from '@playwright/test';
import { answer, askFor, type AskingKind } from './drill';

const kinds: readonly AskingKind[] = ['one', 'several', 'order', 'figure'];
const main = (page: Page) => page.getByRole('main');

test.describe('a screen reader hears', () => {
	/** The question is the page's title, and names the group that its answers stand in. */
	async function named(page: Page) {
		const asks = await page.getByRole('heading', { level: 1 }).innerText();
		await expect(page.getByRole('heading', { level: 1 })).toHaveCount(1);
		expect(asks.length).toBeGreaterThan(10);
		return asks;
	}

	test('one of several as radio buttons in a group named by the question', async ({ page }) => {
		await askFor(page, 'one');
		const group = main(page).getByRole('group', { name: await named(page) });
		expect(await group.getByRole('radio').count()).toBeGreaterThan(1);
		for (const radio of await group.getByRole('radio').all()) await expect(radio).toHaveAccessibleName(/\w/);
	});

	test('any of several as checkboxes in a group named by the question', async ({ page }) => {
		await askFor(page, 'several');
		const group = main(page).getByRole('group', { name: await named(page) });
		expect(await group.getByRole('checkbox').count()).toBeGreaterThan(1);
		for (const box of await group.getByRole('checkbox').all()) await expect(box).toHaveAccessibleName(/\w/);
		await expect(group.getByRole('checkbox', { name: 'None of them' })).toHaveCount(1);
	});

	test('an order as lines with a button each way, and where a line went', async ({ page }) => {
		await askFor(page, 'order');
		const group = main(page).getByRole('group', { name: await named(page) });
		const lines = group.getByRole('listitem');
		const count = await lines.count();
		expect(count).toBeGreaterThan(2);
		await expect(group.getByRole('button', { name: /^Earlier: \w/ })).toHaveCount(count);
		await expect(group.getByRole('button', { name: /^Later: \w/ })).toHaveCount(count);
		const second = (await lines.nth(1).locator('.says').innerText()).trim();
		await group.getByRole('button', { name: `Earlier: ${second}` }).click();
		await expect(lines.first()).toContainText(second);
		await expect(group.getByRole('status')).toHaveText(`${second}: 1 of ${count}`);
		// The button that can do no more hands the focus to the other.
		await expect(group.getByRole('button', { name: `Later: ${second}` })).toBeFocused();
		await page.keyboard.press('Enter');
		await expect(lines.nth(1)).toContainText(second);
		await expect(group.getByRole('button', { name: `Later: ${second}` })).toBeFocused();
	});

	test('a figure as a field with its unit', async ({ page }) => {
		await askFor(page, 'figure');
		await named(page);
		const field = main(page).getByRole('textbox', { name: 'Your figure' });
		await expect(field).toHaveAttribute('inputmode', 'decimal');
		await expect(field).toHaveAccessibleDescription(/^In .+\.$/);
	});

	for (const kind of kinds) {
		test(`the verdict next, after an answer (${kind})`, async ({ page }) => {
			await askFor(page, kind);
			await answer(page);
			await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
			await expect(main(page)).toContainText(/comes back (tonight|tomorrow night|on \w+)/);
			await expect(main(page).getByRole('heading', { name: 'How one comes to it' })).toBeVisible();
			await expect(main(page).getByRole('button', { name: 'Another of this kind' })).toBeVisible();
		});
	}
});

test('what is no answer is refused in words, kept in the field, and not stored', async ({ page }) => {
	await askFor(page, 'figure');
	const field = main(page).getByRole('textbox', { name: 'Your figure' });
	await field.fill('about a dozen');
	await page.getByRole('button', { name: 'Answer' }).click();
	await expect(main(page).getByRole('status')).toContainText('Not taken.');
	await expect(field).toHaveValue('about a dozen');
	await page.reload();
	await answer(page);
});

test('an answer stands: going back and answering again shows the first', async ({ page }) => {
	await askFor(page, 'figure');
	const address = page.url();
	const { origin, pathname } = new URL(address);
	await answer(page);
	const said = await main(page).innerText();
	await page.request.post(`${pathname}?/answer`, { form: { written: '99' }, headers: { origin, accept: 'text/html' } });
	await page.goto(address);
	expect(await main(page).innerText()).toBe(said);
});

test('a drill of somebody else is not there', async ({ page, browser }) => {
	await askFor(page, 'figure');
	const stranger = await browser.newContext();
	expect((await stranger.request.get(page.url())).status()).toBe(404);
	await stranger.close();
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false });

	for (const kind of kinds) {
		test(`a drill is answered (${kind})`, async ({ page }) => {
			await askFor(page, kind);
			await answer(page);
			await main(page).getByRole('button', { name: 'Another of this kind' }).click();
			await expect(page.getByRole('button', { name: 'Answer' })).toBeVisible();
		});
	}

	test('two lines of one number are refused, and the numbers stay', async ({ page }) => {
		await askFor(page, 'order');
		const numbers = main(page).getByRole('combobox');
		for (const select of await numbers.all()) {
			await expect(select).toHaveAccessibleName(/\w/);
			await select.selectOption('1');
		}
		await page.getByRole('button', { name: 'Answer' }).click();
		await expect(main(page).getByRole('status').filter({ hasText: 'Not taken.' })).toContainText('a number of its own');
		await expect(numbers.first()).toHaveValue('1');
	});
});
