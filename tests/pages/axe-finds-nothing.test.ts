import { expect, test, type Page } from '@playwright/test';
import { ownerPath, signUp } from './account';
import { beRefused, breach, choose, debriefed, debriefMs, judge, leave, openTap, ready, set, startCallout, take } from './bench';
import { answer, askFor, beginRound } from './drill';
import { examine as look } from './examine';

const looks = [360, 768, 1440].map((width) => ({ width }));
/** At every width, in the theme of its test. */
const examine = (page: Page, where: string) => look(page, where, looks);

for (const colorScheme of ['light', 'dark'] as const) {
	test.describe(colorScheme, () => {
		test.use({ colorScheme });

		for (const path of [
			'/',
			'/callouts',
			'/families',
			'/families/combi-plate-primary',
			'/words',
			'/settings',
			'/settings/recall',
			'/settings/reminders',
			'/progress',
			'/tonight',
			'/drills',
			'/refresher',
			'/refresher/combi-tap-coil?known=combi-plate-primary',
			'/join',
			'/sign-in',
			'/sign-up',
			'/account',
			'/nothing-here'
		]) {
			test(`axe finds nothing on ${path}`, async ({ page }) => {
				await page.goto(path);
				await examine(page, path);
			});
		}

		test('axe finds nothing on a sign-up turned away, an account, its deletion turned away, settings with a zone, the owner’s page', async ({
			page
		}) => {
			await page.goto('/sign-up');
			await page.getByLabel('Name').fill('x');
			await page.getByRole('button', { name: 'Sign up' }).click();
			await expect(page.getByText('A name has 2 to 40 characters.')).toBeVisible();
			await examine(page, 'a sign-up turned away');
			await page.goto(ownerPath());
			await examine(page, 'the owner’s page');
			await signUp(page, `Looked at in ${colorScheme}`);
			await examine(page, 'an account');
			await page.getByRole('button', { name: 'Delete for good' }).click();
			await expect(page.getByText('Tick this to say that you are sure.')).toBeVisible();
			await examine(page, 'a deletion turned away');
			await page.goto('/settings');
			await examine(page, 'settings of a learner');
			await page.goto(ownerPath());
			await examine(page, 'the owner’s page, signed in');
		});

		test('axe finds nothing on the bench, fresh, with readings and in the van', async ({ page }) => {
			test.setTimeout(180_000);
			await startCallout(page);
			await ready(page);
			await examine(page, 'a fresh callout');
			await openTap(page);
			await choose(page, 'Hot tap');
			await take(page, 'Tap temperature');
			await examine(page, 'a callout with readings');
			await page.setViewportSize({ width: 1440, height: 900 });
			await page.getByRole('link', { name: 'Van' }).click();
			await examine(page, 'the van');
			await page.goto('/callouts');
			await examine(page, 'callouts with one running');
		});

		test('axe finds nothing on a refusal, a breach, an open meaning, readings by what they concern with their bands', async ({ page }) => {
			test.setTimeout(debriefMs + 180_000);
			await set(page, /^Show the band/, /^More contrast/);
			await startCallout(page);
			await ready(page);
			await breach(page);
			await examine(page, 'a breach');
			await page.setViewportSize({ width: 1440, height: 900 });
			await page.reload();
			await ready(page);
			await openTap(page);
			await judge(page);
			await page.getByRole('link', { name: 'By what they concern' }).click();
			await examine(page, 'readings by what they concern, after judging');
			await page.reload();
			await ready(page);
			await beRefused(page);
			await examine(page, 'a refusal');
			await page.setViewportSize({ width: 1440, height: 900 });
			await page.locator('#place .term').first().click();
			await examine(page, 'an open meaning');
		});

		test('axe finds nothing on a round, begun and shut, and on the first page while it is open', async ({ page }) => {
			test.setTimeout(180_000);
			await beginRound(page, 30);
			await examine(page, 'a round');
			await page.goto('/');
			await examine(page, 'the first page with an open round');
			await page.goto('/tonight');
			await page.getByRole('button', { name: 'Finish early' }).click();
			await expect(page.getByRole('heading', { level: 1 })).toHaveText('The round is shut.');
			await examine(page, 'a round that is shut');
		});

		for (const kind of ['one', 'several', 'order', 'figure'] as const) {
			test(`axe finds nothing on a drill and on its verdict (${kind})`, async ({ page }) => {
				test.setTimeout(180_000);
				await askFor(page, kind);
				await examine(page, `a drill (${kind})`);
				await answer(page);
				await examine(page, `a verdict (${kind})`);
			});
		}

		test('axe finds nothing on the debrief', async ({ page }) => {
			test.setTimeout(debriefMs + 120_000);
			await startCallout(page);
			await ready(page);
			await openTap(page);
			await leave(page);
			await debriefed(page);
			await examine(page, 'the debrief');
		});
	});
}
