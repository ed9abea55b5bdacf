import { expect, test, type Page } from '@playwright/test';
import { debriefMs, leave, openTap } from './bench';
import { answer, beginRound, leaveUncured } from './drill';
import { staysInTheWindow } from './examine';

test.use({ viewport: { width: 360, height: 740 } });

const jobs = (page: Page) => page.getByRole('table', { name: 'The jobs of this round' }).locator('tbody tr');
const next = (page: Page) => page.getByRole('button', { name: /^(Begin|Go on|Next): / }).first();

/** Plays what the main button leads to. @returns what kind of job it was */
async function playNext(page: Page, leaveIt: (page: Page) => Promise<void>): Promise<'callout' | 'drill'> {
	await next(page).click();
	await page.waitForURL(/\/(callout|drill)\/[\w-]+$/);
	if (page.url().includes('/drill/')) {
		await answer(page);
		return 'drill';
	}
	await expect(page.getByRole('button', { name: /^Hot tap:/ })).toBeVisible();
	await leaveIt(page);
	return 'callout';
}

test('a round is played to its end on a phone, callouts and drills, and says when each skill comes back', async ({ page }) => {
	test.setTimeout(debriefMs + 180_000);
	await beginRound(page, 30);
	await expect(page.getByRole('heading', { name: 'Mixed on purpose' })).toBeVisible();
	await expect(page.getByText(/Rohrer, Dedrick and Stershic 2015/)).toBeVisible();
	const count = await jobs(page).count();
	expect(count).toBeGreaterThan(2);
	await expect(jobs(page).first()).toHaveAttribute('aria-current', 'step');

	const played: string[] = [];
	// The first by hand, as a thumb does it, the others by the same forms.
	for (let job = 0; job < count; job++) {
		played.push(
			await playNext(page, async () => {
				if (played.includes('callout')) return leaveUncured(page);
				await openTap(page);
				await page.getByRole('link', { name: /^Sheet/ }).click();
				await leave(page);
				await expect(page.getByRole('heading', { name: 'The bill' })).toBeVisible({ timeout: debriefMs });
			})
		);
		await staysInTheWindow(page, `job ${job}, ${page.url()}`);
		if (job === 1) {
			// A refresh, and the sheet in between, lose nothing.
			await page.goto('/tonight');
			await expect(jobs(page).nth(0)).toContainText(/Back (tonight|tomorrow night|on)/);
			await expect(jobs(page).nth(2)).toHaveAttribute('aria-current', 'step');
		}
	}
	expect(new Set(played)).toEqual(new Set(['callout', 'drill']));

	await page.getByRole('link', { name: 'How the round went' }).first().click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('That was tonight’s round.');
	const shown = page.getByRole('table', { name: 'How each skill was shown and when it comes back' });
	await expect(shown.getByRole('row').nth(1)).toContainText(/(lost|laboured|sound|fluent)/);
	expect(await shown.locator('tbody tr').count()).toBeGreaterThan(1);
	await expect(page.getByText(`${count} jobs done`)).toBeVisible();
	await expect(page.getByRole('button', { name: /^Another round, 30 minutes/ })).toBeVisible();
});

test('the debrief of a round’s callout says what it showed and leads on; one outside of a round leads to no round', async ({ page }) => {
	test.setTimeout(debriefMs + 60_000);
	await beginRound(page, 20);
	await next(page).click();
	await page.waitForURL(/\/callout\/[\w-]+$/);
	await expect(page.getByRole('link', { name: /round/i })).toHaveCount(0);
	await leaveUncured(page);
	const shown = page.getByRole('table', { name: 'What it showed' });
	await expect(shown).toContainText('lost');
	await expect(shown).toContainText('tomorrow night');
	await expect(page.getByRole('link', { name: /^Back to tonight’s round/ }).first()).toBeVisible();
	await expect(next(page)).toBeVisible();

	await page.goto('/callouts');
	await page
		.getByRole('button', { name: /^Start another callout/ })
		.first()
		.click();
	await page.waitForURL(/\/callout\/[\w-]+$/);
	await leaveUncured(page);
	await expect(page.getByRole('table', { name: 'What it showed' })).toBeVisible();
	await expect(page.getByRole('link', { name: /^Back to tonight’s round/ })).toHaveCount(0);
});

test('a round is finished early, counts nothing that was not done, and the first page offers another', async ({ page }) => {
	await beginRound(page, 10);
	await page.goto('/');
	await expect(page.getByRole('heading', { name: /^Tonight’s round, \d+ jobs? to go/ })).toBeVisible();
	await page.getByRole('link', { name: 'The sheet of this round' }).click();
	await page.getByRole('button', { name: 'Finish early' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('The round is shut.');
	await expect(page.getByText('0 jobs done')).toBeVisible();
	await page.goto('/');
	await expect(page.getByText(/\d+ new; about \d+ minutes?\./)).toBeVisible();
	await expect(page.getByRole('button', { name: 'Another round, 10 minutes' })).toBeVisible();
});

test('two tabs are in the same round', async ({ page, context }) => {
	await beginRound(page, 20);
	const other = await context.newPage();
	await other.goto('/tonight');
	await next(page).click();
	await page.waitForURL(/\/(callout|drill)\//);
	await next(other).click();
	await other.waitForURL(/\/(callout|drill)\//);
	expect(other.url()).toBe(page.url());
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false });

	test('a round is begun, gone into and finished', async ({ page }) => {
		test.setTimeout(debriefMs + 60_000);
		await beginRound(page, 20);
		await next(page).click();
		await page.waitForURL(/\/(callout|drill)\/[\w-]+$/);
		await page.goto('/tonight');
		await expect(jobs(page).first()).toContainText('Begun, go on where you left it.');
		await page.getByRole('button', { name: 'Finish early' }).click();
		await expect(page.getByRole('heading', { level: 1 })).toHaveText('The round is shut.');
	});
});
