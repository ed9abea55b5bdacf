/** The pages of whoever keeps cohorts, for the pictures: those of the invented training centre, and the forms of a cohort made for it. */

/**
 * Signs up as the owner, who may look at all of them.
 * @param said  what the server printed, with the owner's link
 * @returns name and path of each page
 */
export async function assessorsPages(page, said) {
	await page.goto(/http:\S+\/owner\/\S+/.exec(said)[0]);
	await page.getByLabel('Name').fill('Rowan Keeper');
	await page.getByLabel('Password').fill('two short planks');
	await page.getByRole('button', { name: /^Sign up/ }).click();
	await page.waitForURL(/\/account/);
	await page.goto('/cohorts');
	await page.getByLabel('Name of a new cohort').fill('Tuesday group');
	await page.getByRole('button', { name: 'Make the cohort' }).click();
	await page.waitForURL(/\/register$/);
	const own = new URL(page.url()).pathname.replace(/\/register$/, '');
	const cohort = await pathOf(page, '/cohorts', 'Millbrook evening course (invented)');
	const paper = await satPaper(page, cohort);
	const sheet = await pathOf(page, `${paper}/sheets`, 'Asha Pennyfield');
	return [
		['people', '/people'],
		['records', '/records'],
		['record', '/record'],
		['papers', '/papers'],
		['join', '/join'],
		['cohorts', '/cohorts'],
		['cohort', cohort],
		['register', `${own}/register`],
		['paper-new', `${own}/papers/new`],
		['member-record', await pathOf(page, cohort, 'Asha Pennyfield')],
		['paper', paper],
		['paper-variant', `${paper}/variant/1`],
		['paper-standard', `${paper}/standard`],
		['paper-live', `${paper}/live`],
		['paper-sheets', `${paper}/sheets`],
		['paper-sheet', sheet],
		['paper-replay', `${sheet}/0?at=3`],
		['paper-statistics', `${paper}/statistics`]
	];
}

/** The invented paper, which a new server draws, has sat and marks in the background. */
async function satPaper(page, cohort) {
	for (let tries = 0; tries < 120; tries++) {
		await page.goto(cohort);
		const link = page.getByRole('main').getByRole('link', { name: 'End of term (invented)', exact: true });
		if (await link.count()) {
			const paper = await link.getAttribute('href');
			await page.goto(`${paper}/sheets`);
			if (await page.getByText(/^12 sittings marked/).count()) return paper;
		}
		await page.waitForTimeout(5_000);
	}
	throw new Error('the invented paper was not marked within ten minutes');
}

async function pathOf(page, path, name) {
	await page.goto(path);
	return page.getByRole('main').getByRole('link', { name }).first().getAttribute('href');
}
