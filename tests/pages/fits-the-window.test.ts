import { expect, test, type Page } from '@playwright/test';
import { ownerPath, signUp } from './account';
import { signUpAssessor } from './assessor';
import { choose, debriefed, debriefMs, leave, openTap, ready, startCallout, take } from './bench';
import { answer, askFor, beginRound } from './drill';
import { staysInTheWindow } from './examine';

/** A phone; a laptop at 200 % zoom; a laptop at 400 %. */
const windows = [
	{ width: 360, height: 740 },
	{ width: 640, height: 400 },
	{ width: 320, height: 256 }
];

async function fits(page: Page, where: string): Promise<void> {
	for (const size of windows) {
		await page.setViewportSize(size);
		await staysInTheWindow(page, `${where} at ${size.width}`);
	}
}

test('no page scrolls sideways on a phone or zoomed in', async ({ page }) => {
	test.setTimeout(debriefMs + 60_000);
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
		'/join',
		'/sign-in',
		'/sign-up',
		'/account',
		'/nothing-here'
	]) {
		await page.goto(path);
		await fits(page, path);
	}
	await page.setViewportSize({ width: 1280, height: 800 });
	await startCallout(page);
	await ready(page);
	await openTap(page);
	await choose(page, 'Hot tap');
	await take(page, 'Tap temperature');
	for (const place of ['Appliance', 'Sheet', 'Van']) {
		await page.setViewportSize(windows[0]);
		await page.getByRole('link', { name: place, exact: place !== 'Sheet' }).click();
		await fits(page, place);
	}
	await page.setViewportSize({ width: 1280, height: 800 });
	await page.keyboard.press('Escape');
	await leave(page);
	await debriefed(page);
	await fits(page, 'the debrief');
});

test('no account page scrolls sideways, however long the name', async ({ page }) => {
	await page.goto(ownerPath());
	await fits(page, 'the owner’s page');
	await page.setViewportSize({ width: 1280, height: 800 });
	await signUp(page, 'Wilhelminawilhelminawilhelminawilhelmina');
	await page.getByText('Delete the account').click();
	for (const width of [1024, 768]) {
		await page.setViewportSize({ width, height: 800 });
		await staysInTheWindow(page, `an account at ${width}`);
	}
	await fits(page, 'an account');
	await page.goto('/settings');
	await fits(page, 'settings of a learner');
});

test('no page of a cohort scrolls sideways, however long its name and theirs', async ({ page }) => {
	test.setTimeout(120_000);
	const long = 'Wilhelmina'.repeat(6);
	await signUpAssessor(page);
	await page.goto('/cohorts');
	await page.getByLabel('Name of a new cohort').fill(long);
	await page.getByRole('button', { name: 'Make the cohort' }).click();
	await page.getByLabel('Names, one a line').fill(`name,reference,extra time\n${long},${'9'.repeat(40)},25\n${long},x,much`);
	await page.getByRole('button', { name: 'Look them over' }).click();
	await fits(page, 'names looked over');
	await page.setViewportSize({ width: 1280, height: 800 });
	await page.getByLabel('Names, one a line').fill(`name,reference,extra time\n${long},${'9'.repeat(40)},25`);
	await page.getByRole('button', { name: 'Look them over' }).click();
	await page.getByRole('button', { name: 'Add 1 name' }).click();
	await expect(page.getByRole('heading', { name: '1 name', exact: true })).toBeVisible();
	const register = new URL(page.url()).pathname;
	const link = /\/join\/\w{8}/.exec((await page.getByRole('link', { name: /\/join\// }).textContent())!)![0];
	for (const path of ['/cohorts', register.replace('/register', ''), register, `${register}/invitations`, link]) {
		await page.setViewportSize({ width: 1280, height: 800 });
		await page.goto(path);
		await fits(page, path);
	}
});

test('no page of practice scrolls sideways on a phone or zoomed in', async ({ page }) => {
	test.setTimeout(120_000);
	await beginRound(page, 30);
	await fits(page, 'a round');
	for (const kind of ['one', 'several', 'order', 'figure'] as const) {
		await page.setViewportSize(windows[0]);
		await askFor(page, kind);
		await fits(page, `a drill (${kind})`);
		await answer(page);
		await fits(page, `a verdict (${kind})`);
	}
});

test('on a phone each place on the drawing is at least 24 pixels wide and high, and no two lie over each other', async ({ page }) => {
	await page.setViewportSize(windows[0]);
	await startCallout(page);
	const boxes = await page.locator('.over button').evaluateAll((all) =>
		all.map((one) => {
			const { left, top, right, bottom } = one.getBoundingClientRect();
			return { name: one.getAttribute('aria-label')!, left, top, right, bottom };
		})
	);
	expect(boxes.length).toBeGreaterThanOrEqual(33);
	for (const [i, a] of boxes.entries()) {
		expect(Math.min(a.right - a.left, a.bottom - a.top), a.name).toBeGreaterThanOrEqual(24);
		for (const b of boxes.slice(i + 1)) {
			const apart = a.right <= b.left + 0.5 || b.right <= a.left + 0.5 || a.bottom <= b.top + 0.5 || b.bottom <= a.top + 0.5;
			expect(apart, `${a.name} and ${b.name}`).toBe(true);
		}
	}
});

test('on a phone the name of a place on the drawing is the place, to a finger', async ({ page }) => {
	await page.setViewportSize(windows[0]);
	await startCallout(page);
	await ready(page);
	const names = await page.locator('svg text.name').evaluateAll((all) =>
		all.map((text) => {
			text.scrollIntoView({ block: 'center', behavior: 'instant' });
			const { left, top, width, height } = text.getBoundingClientRect();
			const hit = document.elementFromPoint(left + width / 2, top + height / 2)?.closest('button');
			return { name: text.textContent.replaceAll(' ', ''), hit: hit?.ariaLabel?.split(':')[0].replaceAll(' ', '') };
		})
	);
	expect(names.length).toBeGreaterThanOrEqual(33);
	expect(names.filter(({ name, hit }) => name !== hit)).toEqual([]);
});

test('no label on the drawing runs into another', async ({ page }) => {
	await startCallout(page);
	const hits = await page.locator('svg:has(.casing)').evaluate((svg) => {
		const boxes = [...svg.querySelectorAll('text:not(.edge)')].map((text) => ({
			words: text.textContent,
			box: text.getBoundingClientRect()
		}));
		return boxes.flatMap((a, i) =>
			boxes
				.slice(i + 1)
				.filter((b) => a.box.left < b.box.right && b.box.left < a.box.right && a.box.top < b.box.bottom && b.box.top < a.box.bottom)
				.map((b) => `${a.words} and ${b.words}`)
		);
	});
	expect(hits).toEqual([]);
});
