import { join } from 'node:path';
import { expect, test, type Browser, type Page } from '@playwright/test';
import Driver from 'better-sqlite3';
import { openDatabase } from '../../src/lib/server/database/open.ts';
import { layPaper, shortPath, sit, type Laid } from '../sat.ts';
import { signUp } from './account';
import { signUpAssessor } from './assessor';
import { debriefMs } from './bench';
import { examine } from './examine';

interface Scene extends Laid {
	readonly sitting: string;
	/** Path of the list of sheets. */
	readonly list: string;
	readonly learner: string;
}

/** Two sittings in the file of the server under test that ran out of time there, which the server closes and marks by itself. */
async function laidFor(page: Page, assessor: string): Promise<Scene> {
	const db = openDatabase(process.env.PROVEWELL_TEST_DATA!);
	const laid = layPaper(db);
	const learner = `Imogen Fairweather ${laid.paper.slice(0, 6)}`;
	const open = { ended: null, endedBy: null };
	const sitting = sit(db, laid, { name: learner, paths: [shortPath, []], written: '12', row: open });
	sit(db, laid, { name: `Wren Abbott ${laid.paper.slice(0, 6)}`, paths: [null, null], row: open });
	const { id } = db.$client.prepare('select id from learner where name = ?').get(assessor) as { id: string };
	db.$client.prepare('insert into cohort_assessor (cohort, assessor, since) values (?, ?, ?)').run(laid.cohort, id, Date.now());
	db.$client.close();
	const list = `/cohorts/${laid.cohort}/papers/${laid.paper}/sheets`;
	await expect(async () => {
		await page.goto(list);
		await expect(page.getByText(/^2 sittings marked, 0 locked/)).toBeVisible({ timeout: 500 });
	}).toPass({ timeout: debriefMs });
	return { ...laid, sitting, list, learner };
}

test('an assessor goes from the list to a sheet, from a line to its action, and plays the path again step by step', async ({ page }) => {
	test.setTimeout(debriefMs + 120_000);
	const { list, learner, sitting } = await laidFor(page, await signUpAssessor(page));
	await examine(page, 'the list of sheets');
	await page.getByRole('link', { name: learner }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(learner);
	await expect(page.getByText('Cut off.')).toBeVisible();
	await expect(page.getByText('Ended', { exact: true }).locator('..')).toContainText('time ran out');
	const bill = page.getByRole('table', { name: 'Marks, line by line' });
	const refs = bill.locator('a.ref');
	expect(await refs.count()).toBeGreaterThan(4);
	for (const ref of await refs.all()) await expect(page.locator((await ref.getAttribute('href'))!)).toHaveCount(1);
	await bill
		.getByRole('link', { name: /^at \d+ min$/ })
		.first()
		.click();
	await expect(page).toHaveURL(/#item-0-step-2$/);
	await expect(page.locator('#item-0-step-2')).toContainText('Judged: 1 of');
	await expect(page.locator('#item-0-step-1')).toContainText(/Tap temperature: \d+\.\d °C/);
	await examine(page, 'a mark sheet');

	await page.goto(`${list}/${sitting}`);
	await page.getByRole('link', { name: /Tap temperature$/ }).click();
	// What was suspected at each action is worked out first.
	await expect(page).toHaveURL(/\/0\?at=2$/, { timeout: debriefMs });
	const readings = page.getByRole('table', { name: /^Readings so far/ });
	await expect(readings).toContainText('Tap temperature');
	await expect(page.getByRole('table', { name: /^Suspicion from the complaint/ })).toContainText('this is the fault');
	await examine(page, 'a path played to its second action');
	await page.getByRole('link', { name: 'Back', exact: true }).click();
	await expect(page.getByRole('status').filter({ hasText: '1 of 3' })).toBeVisible();
	await expect(readings).not.toContainText('Tap temperature');
	await page.getByRole('link', { name: 'To the beginning' }).click();
	await expect(page.getByText('On arrival.')).toBeVisible();
	await page.getByRole('link', { name: 'On', exact: true }).click();
	await page.getByRole('link', { name: 'On the sheet' }).click();
	await expect(page).toHaveURL(/#item-0-step-0$/);

	await page.getByRole('link', { name: 'Not right' }).click();
	await expect(page.getByText('The answer', { exact: true })).toBeVisible();
	await examine(page, 'a drill played again');
});

for (const javaScriptEnabled of [true, false]) {
	test.describe(javaScriptEnabled ? 'with scripts' : 'without scripts', () => {
		test.use({ javaScriptEnabled });

		test('a mark is changed for a reason, marked again, locked knowingly, unlocked for a reason, and taken out', async ({ page }) => {
			test.setTimeout(debriefMs + 120_000);
			const { list, learner, sitting } = await laidFor(page, await signUpAssessor(page));
			await page.goto(`${list}/${sitting}`);
			const item = page.locator('section').filter({ has: page.locator('#item-0') });
			await item.getByText('Change a mark').click();
			await item.getByLabel('Which').selectOption({ label: 'Parts: 0 of 30' });
			await item.getByLabel('New mark').fill('31');
			await item.getByLabel('Why').fill('The part was named on the note');
			await item.getByRole('button', { name: 'Change it' }).click();
			await expect(item.getByRole('alert')).toContainText('This is out of 30');
			await expect(item.getByLabel('Why')).toHaveValue('The part was named on the note');
			if (javaScriptEnabled) await examine(page, 'a change turned away');
			await item.getByLabel('New mark').fill('7.5');
			await item.getByRole('button', { name: 'Change it' }).click();
			await expect(item.getByText('Parts: 0 became 7.5.')).toBeVisible();
			await expect(page.getByText('Changed, no second marker yet')).toBeVisible();
			await expect(page.getByText('so the second marker is somebody else')).toBeVisible();

			await page.getByRole('button', { name: 'Mark again' }).click();
			await expect(page.getByText('The same, to the last digit.')).toBeVisible({ timeout: 30_000 });

			await page.getByLabel('Why it is locked all the same').fill('nobody');
			await page.getByRole('button', { name: 'Lock this sheet' }).click();
			await expect(page.getByRole('alert').filter({ hasText: 'To lock it all the same, say why' })).toBeVisible();
			await page.getByLabel('Why it is locked all the same').fill('Nobody else was to be had');
			await page.getByRole('button', { name: 'Lock this sheet' }).click();
			await expect(page.getByText(/^Locked by Assessor/)).toBeVisible();
			await expect(page.getByText('Locked, not seconded')).toBeVisible();
			await expect(page.getByText('Change a mark')).toHaveCount(0);

			await page.goto(list);
			await page.getByRole('button', { name: 'Lock the one that is ready' }).click();
			await expect(page.getByText('1 sheet locked.')).toBeVisible();
			const file = await page.request.get(`${list}/results.csv`);
			expect(file.headers()['content-type']).toContain('text/csv');
			expect(await file.text()).toContain(`${learner},,1,1,`);

			await page.goto(`${list}/${sitting}`);
			await page.getByText('Unlock it').click();
			await page.getByLabel('Why').fill('An appeal was upheld');
			await page.getByRole('button', { name: 'Unlock', exact: true }).click();
			await expect(page.getByRole('row').filter({ hasText: 'Unlocked' })).toContainText('An appeal was upheld');
		});
	});
}

test('another assessor of the cohort is the second marker', async ({ page, browser }) => {
	test.setTimeout(debriefMs + 120_000);
	const { list, sitting } = await laidFor(page, await signUpAssessor(page));
	await page.goto(`${list}/${sitting}`);
	await page.getByRole('button', { name: 'Put this on the sheet' }).click();
	await page.getByRole('radio', { name: 'I agree with the marks' }).check();
	await page.getByLabel('Note').fill('Went through every line');
	await page.getByRole('button', { name: 'Put this on the sheet' }).click();
	await expect(page.getByRole('row').filter({ hasText: 'Second marker agrees' })).toContainText('Went through every line');
	await expectShut(browser, `${list}/${sitting}`, list);
});

/** A learner is refused, and an assessor of other cohorts finds nothing. */
async function expectShut(browser: Browser, ...paths: readonly string[]): Promise<void> {
	const learner = await (await browser.newContext()).newPage();
	await signUp(learner, `Learner ${Date.now() % 1e8}`);
	const other = await (await browser.newContext()).newPage();
	await signUpAssessor(other);
	for (const path of paths) {
		expect((await learner.goto(path))!.status(), path).toBe(403);
		expect((await other.goto(path))!.status(), path).toBe(404);
	}
	await learner.context().close();
	await other.context().close();
}

test('on paper a sheet has bills, path, history, cautions, rules, pack and seed, lines to sign, and no controls', async ({ page }) => {
	test.setTimeout(debriefMs + 60_000);
	const { list, learner, sitting } = await laidFor(page, await signUpAssessor(page));
	await page.goto(`${list}/${sitting}`);
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(learner);
	await expect(page.getByRole('button')).toHaveCount(0);
	await expect(page.getByRole('textbox')).toHaveCount(0);
	await expect(page.getByRole('navigation')).toHaveCount(0);
	for (const one of await page.getByText('Change a mark').all()) await expect(one).toBeHidden();
	await expect(page.getByRole('table', { name: 'Marks, line by line' })).toBeVisible();
	await expect(page.locator('#item-0-step-1')).toBeVisible();
	const signs = page.getByRole('region', { name: 'Signatures' });
	for (const line of [/^Marker, name and signature/, 'Second marker, name and signature', 'It licenses nobody']) {
		await expect(signs.getByText(line).first()).toBeVisible();
	}
	await expect(signs).toContainText('Rules in force: United Kingdom');
	await expect(page.getByText(/^seed \d+, pack [0-9a-f]{64}$/).first()).toBeVisible();
	await expect(page.getByRole('contentinfo')).toContainText('Practice only.');
	expect(await trailIsTold(sitting)).toBe(1);
});

/** Rows of the trail that tell of the marking of a sitting. */
async function trailIsTold(sitting: string): Promise<unknown> {
	const db = new Driver(join(process.env.PROVEWELL_TEST_DATA!, 'provewell.sqlite'), { readonly: true });
	const count = db.prepare("select count(*) from audit_entry where subject = ? and kind = 'sitting-marked'").pluck().get(sitting);
	db.close();
	return count;
}
