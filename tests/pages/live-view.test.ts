import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import Driver from 'better-sqlite3';
import { signUpAssessor } from './assessor';
import { examine } from './examine';

const minuteMs = 60_000;

/** Rows in the database of the server under test. */
function withDatabase<Value>(does: (db: Driver.Database) => Value): Value {
	const db = new Driver(join(process.env.PROVEWELL_TEST_DATA!, 'provewell.sqlite'), { timeout: 5000 });
	try {
		return does(db);
	} finally {
		db.close();
	}
}

function insert(db: Driver.Database, table: string, row: Record<string, unknown>): void {
	const names = Object.keys(row);
	db.prepare(`insert into ${table} (${names.join(', ')}) values (${names.map((name) => `@${name}`).join(', ')})`).run(row);
}

/** A set paper of two drills, kept by the assessor, with a register of names. */
function setPaper(assessor: string, names: readonly string[]): { path: string; paper: string; members: Map<string, string> } {
	return withDatabase((db) => {
		const { id } = db.prepare('select id from learner where name = ?').get(assessor) as { id: string };
		const [cohort, paper, now] = [randomUUID(), randomUUID(), Date.now()];
		insert(db, 'cohort', { id: cohort, name: 'Tuesday group', invented: 0, created: now });
		insert(db, 'cohort_assessor', { cohort, assessor: id, since: now });
		const blueprint = JSON.stringify({ lines: [{ kind: 'drill', drill: 'water-sums', count: 2 }] });
		const pass_rule = JSON.stringify({ mark: 60, noDanger: true, cured: 0 });
		const times = { opens: now - minuteMs, closes: now + 90 * minuteMs, created: now, set: now };
		const row = {
			id: paper,
			cohort,
			title: 'Hot water',
			mode: 'formal',
			blueprint,
			pass_rule,
			minutes: 60,
			attempts: 1,
			created_by: id,
			...times
		};
		db.prepare(
			`insert into paper (id, cohort, title, mode, blueprint, pass_rule, minutes, attempts, opens, closes, created, created_by, "set")
			values (@id, @cohort, @title, @mode, @blueprint, @pass_rule, @minutes, @attempts, @opens, @closes, @created, @created_by, @set)`
		).run(row);
		const members = new Map(names.map((name) => [name, randomUUID()]));
		for (const [name, member] of members) insert(db, 'member', { id: member, cohort, name, extra_percent: 0, created: now });
		return { path: `/cohorts/${cohort}/papers/${paper}/live`, paper, members };
	});
}

/** Somebody begins a sitting, so many minutes ago. @returns its id */
function begin({ paper, members }: ReturnType<typeof setPaper>, name: string, minutesAgo = 0): string {
	const [id, started] = [randomUUID(), Date.now() - minutesAgo * minuteMs];
	const row = { id, paper, member: members.get(name), variant: 1, number: 1, started, deadline: started + 60 * minuteMs, seen: started };
	withDatabase((db) => insert(db, 'sitting', row));
	return id;
}

const row = (page: Page, name: string) => page.getByRole('row').filter({ has: page.getByRole('rowheader', { name }) });

async function watch(page: Page, path: string): Promise<void> {
	await page.goto(path);
	await expect(page.getByText('Kept up as it happens.')).toBeVisible();
}

test('who begins, is idle, tries another place and is closed is shown without a reload', async ({ page }) => {
	const set = setPaper(await signUpAssessor(page), ['Ann Field', 'Bea Moss', 'Cal Reed']);
	await watch(page, set.path);
	await expect(page.getByRole('list').filter({ hasText: 'Ann Field' })).toContainText('Cal Reed, has not joined');

	begin(set, 'Ann Field');
	await expect(row(page, 'Ann Field')).toContainText('60 min');
	await expect(row(page, 'Ann Field')).toContainText('Began');

	const bea = begin(set, 'Bea Moss', 10);
	await expect(page.getByRole('table', { name: 'To look at' })).toContainText('Bea Moss');
	await expect(row(page, 'Bea Moss')).toContainText('Nothing done for 4 minutes or more.');
	await expect(row(page, 'Bea Moss')).toContainText('50 min');
	withDatabase((db) => insert(db, 'sitting_event', { sitting: bea, at: Date.now(), kind: 'second-seat' }));
	await expect(row(page, 'Bea Moss')).toContainText('Another place was tried.');

	await row(page, 'Bea Moss').getByText('Close this sitting').click();
	await row(page, 'Bea Moss').getByLabel('Why').fill('The fire alarm went');
	await row(page, 'Bea Moss')
		.getByRole('button', { name: /^Close it for good/ })
		.click();
	await expect(page.getByRole('table', { name: 'Through' })).toContainText('Bea Moss');
	await expect(row(page, 'Bea Moss')).toContainText('Closed by an assessor');
	await expect(page.getByRole('table', { name: 'To look at' })).toBeHidden();
	await expect(page.getByText('Kept up as it happens.')).toBeVisible();
});

test('opening the question whether to close a sitting closes nothing, and stays open while the wall changes', async ({ page }) => {
	const set = setPaper(await signUpAssessor(page), ['Ann Field', 'Bea Moss']);
	begin(set, 'Ann Field');
	await watch(page, set.path);
	await row(page, 'Ann Field').getByText('Close this sitting').click();
	begin(set, 'Bea Moss');
	await expect(row(page, 'Bea Moss')).toBeVisible();
	await expect(row(page, 'Ann Field').getByRole('button', { name: /^Close it for good/ })).toBeVisible();
	await expect(row(page, 'Ann Field')).toContainText('min');
});

test('where no events come through the wall is asked for', async ({ page }) => {
	const set = setPaper(await signUpAssessor(page), ['Ann Field']);
	await page.route('**/live/events', (route) => route.abort());
	await page.goto(set.path);
	await expect(page.getByText('Asked for every few seconds')).toBeVisible();
	begin(set, 'Ann Field');
	await expect(row(page, 'Ann Field')).toContainText('60 min');
});

test('who signs out in another tab sees that it is no longer live', async ({ page }) => {
	const set = setPaper(await signUpAssessor(page), ['Ann Field']);
	await watch(page, set.path);
	const other = await page.context().newPage();
	await other.goto('/account');
	await other.getByRole('button', { name: 'Sign out', exact: true }).click();
	await expect(page.getByText('No longer live')).toBeVisible();
});

test('the room sees names and minutes, and nothing of what anybody does', async ({ page }) => {
	const set = setPaper(await signUpAssessor(page), ['Ann Field', 'Bea Moss']);
	begin(set, 'Bea Moss', 10);
	await watch(page, set.path);
	await page.getByRole('link', { name: 'What the room may see' }).click();
	await expect(page.getByRole('listitem').filter({ hasText: 'Bea Moss' })).toContainText('50 min');
	await expect(page.getByRole('listitem').filter({ hasText: 'Ann Field' })).toContainText('Not begun');
	await expect(page.getByText('Nothing done')).toBeHidden();
	await expect(page.getByText('Variant')).toBeHidden();
	begin(set, 'Ann Field');
	await expect(page.getByRole('listitem').filter({ hasText: 'Ann Field' })).toContainText('60 min');
});

test.describe('without scripts', () => {
	test.use({ javaScriptEnabled: false });

	test('the wall stands in the page, is read again by a link, and a sitting is closed', async ({ page }) => {
		const set = setPaper(await signUpAssessor(page), ['Ann Field']);
		await page.goto(set.path);
		await expect(page.getByText('As it stood when this page was read.')).toBeVisible();
		await expect(page.locator('meta[http-equiv=refresh]')).toHaveAttribute('content', '60');
		begin(set, 'Ann Field');
		// What was read less than a second ago is not read again.
		await expect(async () => {
			await page.getByRole('link', { name: 'Read it again' }).click();
			await expect(row(page, 'Ann Field')).toContainText('60 min', { timeout: 500 });
		}).toPass();
		await row(page, 'Ann Field').getByText('Close this sitting').click();
		await row(page, 'Ann Field').getByLabel('Why').fill('The fire alarm went');
		await row(page, 'Ann Field')
			.getByRole('button', { name: /^Close it for good/ })
			.click();
		await expect(row(page, 'Ann Field')).toContainText('Closed by an assessor');
	});
});

test('axe finds nothing on the wall, for the assessor and for the room, and nothing is wider than the window', async ({ page }) => {
	const set = setPaper(await signUpAssessor(page), ['Ann Field', 'Bea Moss', 'Cal Reed', 'A Name Of Forty Letters Which Is The Most']);
	begin(set, 'Ann Field');
	const bea = begin(set, 'Bea Moss', 10);
	withDatabase((db) => insert(db, 'sitting_event', { sitting: bea, at: Date.now(), kind: 'second-seat' }));
	for (const path of [set.path, `${set.path}?room`]) {
		await watch(page, path);
		await examine(page, path, [
			{ width: 360, colorScheme: 'light' },
			{ width: 768, colorScheme: 'dark' },
			{ width: 1440, colorScheme: 'light' },
			{ width: 1920, colorScheme: 'dark' }
		]);
	}
});
