import { expect, test, type Page } from '@playwright/test';
import { debriefMs } from './bench';
import { answer, beginRound, leaveUncured } from './drill';
import { axeFindsNothing, staysInTheWindow } from './examine';

const [met, known] = ['combi-tap-coil', 'combi-plate-primary'];
const names = {
	met: 'Combination boiler with the tap-water coil inside the main exchanger',
	known: 'Combination boiler with plate exchanger, governed from the primary'
};
const differs = `/refresher/${met}?known=${known}`;
const begins = /^Ten minutes on exactly these/;

async function holds(page: Page, where: string): Promise<void> {
	await staysInTheWindow(page, where);
	await axeFindsNothing(page, where);
}

/** Pages of A4 that a browser prints it on, with the margins that browsers give. */
async function sheetsOf(page: Page): Promise<number> {
	const margin = '10mm';
	const pdf = await page.pdf({ format: 'A4', margin: { top: margin, right: margin, bottom: margin, left: margin } });
	return pdf.toString('latin1').match(/\/Type\s*\/Page(?!s)/g)!.length;
}

async function choose(page: Page): Promise<void> {
	const [meets, knows] = ['You meet tomorrow', 'You know already'].map((name) => page.getByRole('group', { name }));
	await meets!.getByRole('radio', { name: names.met }).check();
	await knows!.getByRole('checkbox', { name: names.known }).check();
	await page.getByRole('button', { name: 'Show what differs' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText(`What differs: ${names.met}`);
}

test.describe('on a phone', () => {
	test.use({ viewport: { width: 360, height: 740 } });

	test('a refresher from the list of appliances to the page that is taken along', async ({ page }) => {
		test.setTimeout(debriefMs + 240_000);
		await page.goto('/families');
		await page.getByRole('link', { name: /^A refresher/ }).click();
		await page.waitForURL(/\/refresher$/);
		await holds(page, 'the choice');
		await choose(page);
		await holds(page, 'what differs');

		const readings = page.getByRole('table', { name: 'Checks that read otherwise on a sound appliance' });
		await expect(readings.getByRole('row', { name: /^Pump ?tap open/ })).toContainText(/silent.*steady hum.*goes with: Pump seized/);
		await expect(readings.getByRole('row', { name: /^Volts at the pump/ })).toContainText('Live');
		const care = page.getByRole('region', { name: 'With care' });
		await expect(care).toContainText(/Live test\..*Volts at the pump.*Scald: 60\s°C\. Tap water that scalds/s);
		const missing = page.getByRole('paragraph').filter({ hasText: 'Not on this drawing:' });
		await expect(missing).toContainText('diverter');
		await expect(missing).not.toContainText(/dial|injector/);
		await expect(page.getByRole('list', { name: 'Here' }).first().getByRole('listitem').nth(1)).toContainText('Only here.');
		await page.getByRole('button', { name: begins }).click();
		await page.waitForURL(/\/tonight$/);
		await expect(page.getByRole('heading', { level: 1 })).toHaveText('Refresher: Combi, coil in exchanger');
		const jobs = page.getByRole('table', { name: 'The jobs of this round' }).locator('tbody tr');
		await expect(jobs).toHaveText([
			/A drill: .*Where it differs/,
			...Array(3).fill(/A callout on Combi, coil in exchanger.*Where it differs/)
		]);
		await expect(jobs.nth(1)).not.toContainText(/gas|pump|air|board|sensor/i);

		await page.getByRole('button', { name: /^Begin: / }).click();
		await page.waitForURL(/\/drill\/[\w-]+$/);
		await answer(page);
		for (let callout = 0; callout < 3; callout++) {
			if (callout === 0) await expect(page.getByRole('link', { name: /^Back to the refresher/ })).toBeVisible();
			await page
				.getByRole('button', { name: /^Next: / })
				.first()
				.click();
			await page.waitForURL(/\/callout\/[\w-]+$/);
			await leaveUncured(page);
		}
		await page.getByRole('link', { name: 'How the refresher went' }).first().click();
		await page.waitForURL(/\/refresher\/result\/[\w-]+$/);
		await expect(page.getByRole('heading', { level: 1 })).toHaveText(`Refresher: ${names.met}`);
		const bills = page.getByRole('table', { name: 'The callouts, a bill in a line each' }).locator('tbody tr');
		await expect(bills).toHaveText(Array(3).fill(/: lost\. Marks lost on .*\d+ of 100.*\d+ min.*£\d+/));
		await expect(page.getByText(/^Firing sequence, a drill\. ?(Right|Nearly right|Not right):/)).toBeVisible();
		await expect(page.getByRole('region', { name: 'Look out for tomorrow' }).getByRole('listitem')).toHaveCount(6);
		await expect(page.getByRole('region', { name: /^What differs/ })).toContainText('Test points only here');
		await holds(page, 'the result');

		await expect(care).toContainText(/Live test\..*Scald: 60\s°C/s);
		expect(await sheetsOf(page)).toBe(1);
		await page.emulateMedia({ media: 'print' });
		await expect(page.getByRole('button')).toHaveCount(0);
		await expect(page.getByRole('contentinfo')).toContainText('Practice only.');
		await expect(page.getByRole('contentinfo')).toContainText('Rules in force here: United Kingdom');
		await expect(page.getByText(/^\w+day \d+ \w+ 20\d\d\. Compared with: Combi, plate/)).toBeVisible();
		await page.emulateMedia({ media: 'screen' });

		await page.goto('/tonight');
		await expect(page.getByRole('heading', { level: 1 })).toHaveText('That was the refresher.');
		await expect(page.getByRole('link', { name: /^What came of it/ })).toBeVisible();
	});

	test('one that is finished at once leaves a page too, which says what was not played', async ({ page }) => {
		await page.goto(differs);
		await page.getByRole('button', { name: begins }).click();
		await page.waitForURL(/\/tonight$/);
		await page.getByRole('button', { name: 'Finish early' }).click();
		await page.getByRole('link', { name: /^What came of it/ }).click();
		const bills = page.getByRole('table', { name: 'The callouts, a bill in a line each' });
		await expect(bills.locator('tbody tr')).toHaveText(Array(3).fill(/Not played\./));
		await expect(page.getByText('Firing sequence, a drill. Not played.')).toBeVisible();
		expect(await sheetsOf(page)).toBe(1);
	});
});

for (const javaScriptEnabled of [true, false]) {
	test.describe(javaScriptEnabled ? 'with scripts' : 'without scripts', () => {
		test.use({ javaScriptEnabled });

		test('an open round is said, and ended only when that is asked for', async ({ page }) => {
			await beginRound(page, 20);
			const count = await page.getByRole('table', { name: 'The jobs of this round' }).locator('tbody tr').count();
			await page.goto(differs);
			await expect(page.getByRole('main').getByRole('status')).toContainText(`A round of tonight is open, with ${count} job`);
			await page.getByRole('link', { name: 'Go on with that one' }).click();
			await expect(page.getByRole('heading', { level: 1 })).toHaveText('Tonight’s round');
			await page.goto(differs);
			await page.getByRole('button', { name: /^End that one and take ten minutes/ }).click();
			await page.waitForURL(/\/tonight$/);
			await expect(page.getByRole('heading', { level: 1 })).toHaveText('Refresher: Combi, coil in exchanger');
			await page.goto('/');
			await expect(page.getByRole('heading', { name: 'Refresher: Combi, coil in exchanger, 4 jobs to go' })).toBeVisible();
			await page.goto(differs);
			await expect(page.getByRole('main').getByRole('status')).toContainText(
				'A refresher on Combi, coil in exchanger is open, with 4 jobs to go'
			);
		});

		test('a round begun in another tab meanwhile is not ended unasked', async ({ page, context }) => {
			await page.goto(differs);
			const other = await context.newPage();
			await beginRound(other, 20);
			await page.getByRole('button', { name: begins }).click();
			await expect(page.getByRole('main').getByRole('status')).toContainText('A round of tonight is open');
			await other.goto('/tonight');
			await expect(other.getByRole('heading', { level: 1 })).toHaveText('Tonight’s round');
		});

		test('nothing known is asked for again, and what is chosen is kept', async ({ page }) => {
			await page.goto(`/refresher?met=${met}`);
			await expect(page.getByRole('radio', { name: names.met })).toBeChecked();
			await page.getByRole('group', { name: 'You know already' }).getByRole('checkbox', { name: names.met }).check();
			await page.getByRole('button', { name: 'Show what differs' }).click();
			await expect(page.getByRole('alert')).toContainText('Tick at least one family that you know');
			await expect(page.getByRole('radio', { name: names.met })).toBeChecked();
			await choose(page);
		});
	});
}

test('what is not in stock, and what is somebody else’s, is answered in words', async ({ page, request }) => {
	await page.goto(`/refresher/${met}?known=gone`);
	await expect(page.getByRole('alert')).toContainText('None of the families named as known is in stock here.');
	await page.goto(`${differs}&known=gone`);
	await expect(page.getByText('Left out, since it is not in stock: gone.')).toBeVisible();
	expect((await page.goto(`/refresher/gone?known=${known}`))?.status()).toBe(404);
	await expect(page.getByText('No such appliance family is in stock.')).toBeVisible();
	expect((await page.goto('/refresher/result/nobody'))?.status()).toBe(404);
	await page.goto(differs);
	await page.getByRole('button', { name: begins }).click();
	await page.waitForURL(/\/tonight$/);
	await page.getByRole('button', { name: 'Finish early' }).click();
	const result = await page.getByRole('link', { name: /^What came of it/ }).getAttribute('href');
	expect((await request.get(result!)).status()).toBe(404);
});

test('the other way round differs in the same, and both print', async ({ page }) => {
	await page.goto(`/refresher/${known}?known=${met}`);
	const row = page.getByRole('row', { name: /^Volts at the pump/ });
	await expect(row).toContainText(/V.*0\sV.*goes with: Board drives the pump all the time/);
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByRole('heading', { name: 'Firing sequences side by side' })).toBeVisible();
	await expect(page.getByRole('button')).toHaveCount(0);
	expect(await sheetsOf(page)).toBeLessThanOrEqual(2);
});
