/**
 * Takes a picture of every page, and of the callout in its states, at three widths, on paper and on slate, of a server that it starts on an empty data folder.
 * `node scripts/screenshots.mjs [folder]`; the folder is docs/screenshots unless given. The build must stand: `npm start` makes it.
 * The few that the README shows are named in `kept`; `--all` writes the rest as well.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { browserFlags, installedBrowser } from './browser.mjs';
import { root } from './make-ready.mjs';
import { assessorsPages } from './screenshots-assessor.mjs';
import { startServer } from './server.mjs';

const all = process.argv.includes('--all');
const folder = process.argv.slice(2).find((argument) => !argument.startsWith('--')) ?? join(root, 'docs/screenshots');
const widths = [360, 768, 1440];
const kept = ['callout-1440-light', 'callout-360-light', 'debrief-1440-light'];
const family = 'combi-plate-primary';

mkdirSync(folder, { recursive: true });
const data = mkdtempSync(join(tmpdir(), 'provewell-screenshots-'));
const server = await startServer(data);
const base = server.address;
const browser = await chromium.launch({ executablePath: installedBrowser(), args: browserFlags() });
try {
	const context = await browser.newContext({ baseURL: base });
	const page = await context.newPage();
	const pages = [...(await playCallout(page)), ...(all ? await assessorsPages(page, server.said()) : [])];
	for (const colorScheme of ['light', 'dark']) {
		await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
		for (const [name, path] of pages) {
			for (const width of widths) await picture(page, `${name}-${width}-${colorScheme}`, path, width);
		}
	}
} finally {
	await browser.close();
	await server.end();
	rmSync(data, { recursive: true, force: true });
}

/** One callout left in the middle, and one of the server's invented ones. @returns name and path of each page */
async function playCallout(page) {
	await page.goto('/callouts');
	const ended = await page.getByRole('region', { name: 'Examples' }).getByRole('link').first().getAttribute('href');
	await page.goto(ended);
	await page.getByRole('heading', { name: 'The bill' }).waitFor({ timeout: 300_000 });
	const fresh = await start(page);
	const unsafe = await start(page);
	await act(page, { kind: 'check', check: 'look-inlet-filter' });
	const running = await start(page);
	for (const demand of ['heating', 'tap']) await act(page, { kind: 'demand', demand });
	for (const check of ['measure-tap-temperature', 'measure-tap-flow', 'feel-heating-pipe', 'listen-fan-over-time']) {
		await act(page, { kind: 'check', check });
	}
	await act(page, { kind: 'note', text: 'Began after the street main was dug up.' });
	const drill = await beginPractice(page);
	await page.context().addCookies([{ name: 'provewell-toured', value: '1', url: base }]);
	return [
		['home', '/'],
		['callouts', '/callouts'],
		['families', '/families'],
		['family', `/families/${family}`],
		['words', '/words'],
		['settings', '/settings'],
		['settings-recall', '/settings/recall'],
		['settings-reminders', '/settings/reminders'],
		['progress', '/progress'],
		['tonight', '/tonight'],
		['drills', '/drills'],
		['drill', drill.open],
		['drill-answered', drill.answered],
		['refresher', '/refresher'],
		['what-differs', `/refresher/combi-tap-coil?known=${family}`],
		['sign-in', '/sign-in'],
		['sign-up', '/sign-up'],
		['account', '/account'],
		['nothing-here', '/nothing-here'],
		['callout-fresh', fresh],
		['callout-breach', unsafe],
		['callout', `${running}?place=diverter-motor`],
		['debrief', ended]
	];
}

async function start(page) {
	await page.goto('/');
	await page.getByRole('button', { name: /^Start (a|another) callout/ }).click();
	await page.waitForURL(/\/callout\/[\w-]+$/);
	return new URL(page.url()).pathname;
}

/** A round begun, a drill asked and another answered. @returns the paths of the drills */
async function beginPractice(page) {
	await page.goto('/tonight');
	await page.getByRole('button', { name: /, 30 minutes/ }).click();
	await page.waitForURL(/\/tonight$/);
	const ask = async (kind) => {
		await page.goto('/drills');
		await page.getByRole('button', { name: `Practise: ${kind}` }).click();
		await page.waitForURL(/\/drill\/[\w-]+$/);
		return new URL(page.url()).pathname;
	};
	const open = await ask('Put the firing sequence in order');
	const answered = await ask('Say what is ruled out');
	await page.getByRole('main').locator('input[type=checkbox], input[type=radio]').last().check();
	await page.getByRole('button', { name: 'Answer' }).click();
	await page.locator('#verdict').waitFor();
	return { open, answered };
}

/** Sends an action with the page's own number, as its forms do. */
async function act(page, action) {
	const seq = await page.locator('input[name=seq]').first().inputValue();
	const path = new URL(page.url()).pathname;
	const answer = await page.request.post(`${path}?/act`, { form: { seq, ...action }, headers: { origin: base, accept: 'text/html' } });
	if (!answer.ok()) throw new Error(`${JSON.stringify(action)} was answered with ${answer.status()}`);
	await page.goto(path);
}

async function picture(page, name, path, width) {
	if (!all && !kept.includes(name)) return;
	await page.setViewportSize({ width, height: width === 360 ? 740 : 1000 });
	await page.goto(path, { waitUntil: 'networkidle' });
	// A whole bench is its picture; a long page is shown to the first fold and a half.
	const height = Math.min(await page.evaluate(() => document.documentElement.scrollHeight), width === 360 ? 1480 : 1500);
	await page.setViewportSize({ width, height });
	await page.screenshot({ path: join(folder, `${name}.png`) });
	console.log(join(folder, `${name}.png`));
}
