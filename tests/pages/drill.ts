/** What a person does at a drill and in a round, for the page tests. */
import { expect, test, type Page } from '@playwright/test';
import { debriefed, debriefMs } from './bench';

export type AskingKind = 'one' | 'several' | 'order' | 'figure';

/** Which kind of answer the question on the page asks for. */
export async function askingKind(page: Page): Promise<AskingKind> {
	await expect(page.getByRole('button', { name: 'Answer' })).toBeVisible();
	const main = page.getByRole('main');
	if (await main.getByRole('textbox', { name: 'Your figure' }).count()) return 'figure';
	if (await main.getByRole('radio').count()) return 'one';
	return (await main.getByRole('checkbox').count()) ? 'several' : 'order';
}

/** Some answer, whatever is asked. */
export async function answer(page: Page): Promise<void> {
	switch (await askingKind(page)) {
		case 'figure':
			await page.getByRole('textbox', { name: 'Your figure' }).fill('12.5');
			break;
		case 'one':
			await page.getByRole('main').getByRole('radio').first().check();
			break;
		case 'several':
			await page.getByRole('main').getByRole('checkbox').first().check();
			break;
		case 'order':
			// Without scripts each line is given its number; with them the lines stand in an order already.
			for (const [index, select] of (await page.getByRole('main').getByRole('combobox').all()).entries()) {
				await select.selectOption(String(index + 1));
			}
	}
	await page.getByRole('button', { name: 'Answer' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^(Right|Nearly right|Not right)$/);
}

/** The kinds of drill that are sure to ask in each way, as they are listed. */
const listed: Readonly<Record<AskingKind, string>> = {
	one: 'Judge a reading',
	several: 'Say what is ruled out',
	order: 'Put the firing sequence in order',
	figure: 'Sums of water'
};

/** Goes to a drill that asks in this way. */
export async function askFor(page: Page, kind: AskingKind): Promise<void> {
	test.setTimeout(debriefMs + 60_000);
	const most = 20;
	for (let asked = 0; asked < most; asked++) {
		const button = page.getByRole('button', { name: `Practise: ${listed[kind]}` });
		// A new server makes the evidence tables first, which some kinds draw on.
		await expect(async () => {
			await page.goto('/drills');
			await expect(button).toBeEnabled({ timeout: 1000 });
		}).toPass({ timeout: debriefMs });
		await button.click();
		await page.waitForURL(/\/drill\/[\w-]+$/);
		if ((await askingKind(page)) === kind) return;
	}
	throw new Error(`No drill of "${listed[kind]}" asks in the way "${kind}".`);
}

/** Begins a round of so many minutes from the first page. */
export async function beginRound(page: Page, minutes: number): Promise<void> {
	await page.goto('/');
	await page.getByRole('button', { name: new RegExp(`^Start tonight’s round, ${minutes} minutes`) }).click();
	// One tap to the first job; its sheet is a page of its own.
	await page.waitForURL(/\/((callout|drill)\/[\w-]+|tonight\?wait)$/);
	await page.goto('/tonight');
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Tonight’s round');
}

/** Leaves the callout on the page with nothing cured, as its own forms do, and reads its debrief. */
export async function leaveUncured(page: Page): Promise<void> {
	const path = new URL(page.url()).pathname;
	const { origin } = new URL(page.url());
	const seq = await page.locator('input[name=seq]').first().inputValue();
	await page.request.post(`${path}?/act`, { form: { seq, kind: 'leave' }, headers: { origin, accept: 'text/html' } });
	await page.goto(path);
	await page.waitForURL(/\/debrief$/);
	await debriefed(page);
}
