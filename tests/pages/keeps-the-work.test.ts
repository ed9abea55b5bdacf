import { expect, test } from '@playwright/test';
import { password, signUp } from './account';
import { leave, openTap, startCallout } from './bench';

for (const javaScriptEnabled of [true, false]) {
	test.describe(javaScriptEnabled ? 'with scripts' : 'without scripts', () => {
		test.use({ javaScriptEnabled });

		test('a guest plays, signs up, keeps the work, signs out, signs in', async ({ page }) => {
			const name = javaScriptEnabled ? 'Scripted Ann' : 'Plain Ann';
			const callout = new URL(await startCallout(page)).pathname;
			await openTap(page);
			await page.goto('/');
			await expect(page.getByText('No account.')).toBeVisible();
			await page.getByRole('main').getByRole('link', { name: 'Sign up' }).click();
			await expect(page.getByText('comes along')).toBeVisible();
			await signUp(page, name);
			await page.goto('/');
			await expect(page.getByText('No account.')).toBeHidden();
			await page.getByRole('banner').getByRole('link', { name }).click();

			await page.getByRole('button', { name: 'Sign out', exact: true }).click();
			await expect(page.getByRole('banner').getByRole('link', { name: 'Sign in' })).toBeVisible();
			expect((await page.request.get(callout)).status()).toBe(404);

			await page.getByRole('banner').getByRole('link', { name: 'Sign in' }).click();
			await page.getByLabel('Name').fill(name.toUpperCase());
			await page.getByLabel('Password').fill(password);
			await page.getByRole('button', { name: 'Sign in' }).click();
			await expect(page.getByRole('banner').getByRole('link', { name })).toBeVisible();
			await page.goto(callout);
			await expect(page.locator('.slip:visible')).toContainText('Demand: Tap complained of');
			await leave(page);
		});
	});
}

test('what is wrong stands beside its field, is said of it, and is where the cursor goes; what was written stays', async ({ page }) => {
	await page.goto('/sign-up');
	await expect(page.locator('input[name=zone]')).not.toHaveValue('');
	await page.getByLabel('Name').fill('Beatrix');
	await page.getByLabel('Password').fill('short');
	await page.getByLabel(/^E-mail/).fill('nowhere');
	await page.getByRole('button', { name: 'Sign up' }).click();
	const word = page.getByLabel('Password');
	await expect(word).toHaveAttribute('aria-invalid', 'true');
	await expect(word).toHaveAccessibleDescription(/A password has at least 10 characters/);
	await expect(word).toBeFocused();
	await expect(word).toHaveAttribute('autocomplete', 'new-password');
	await expect(page.getByLabel(/^E-mail/)).toHaveAccessibleDescription(/This is no e-mail address/);
	await expect(page.getByLabel('Name')).not.toHaveAttribute('aria-invalid');
	await expect(page.getByLabel('Name')).toHaveValue('Beatrix');
});

test.describe('in another part of the world', () => {
	test.use({ timezoneId: 'Pacific/Auckland' });

	test('the days of a learner turn where the browser is, until another zone is chosen', async ({ page }) => {
		await startCallout(page);
		await page.goto('/settings');
		await expect(page.getByLabel('Time zone')).toHaveValue('Pacific/Auckland');
		await page.getByLabel('Time zone').selectOption('America/Lima');
		await page.getByRole('button', { name: 'Keep this zone' }).click();
		await expect(page.getByRole('status').filter({ hasText: 'Kept.' })).toBeVisible();
		await signUp(page, 'Far Away');
		await page.goto('/settings');
		await expect(page.getByLabel('Time zone')).toHaveValue('America/Lima');
	});
});

test('an account is deleted, with all it did, when it is asked for twice', async ({ page }) => {
	const callout = new URL(await startCallout(page)).pathname;
	await signUp(page, 'Short Stay');
	await page.getByText('Delete the account').click();
	await page.getByLabel('Your password, once more').fill(password);
	await page.getByRole('button', { name: 'Delete for good' }).click();
	await expect(page.getByText('Tick this to say that you are sure.')).toBeVisible();
	await page.getByRole('checkbox', { name: /^I am sure/ }).check();
	await page.getByRole('button', { name: 'Delete for good' }).click();
	await expect(page.getByRole('status').filter({ hasText: 'Deleted.' })).toBeVisible();
	expect((await page.request.get(callout)).status()).toBe(404);
});
