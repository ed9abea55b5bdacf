/**
 * Takes a picture of every page at three widths, on paper and on slate, of a server that it starts on an empty data folder.
 * `node scripts/screenshots.mjs [folder]`; the folder is docs/screenshots unless given. The build must stand: `npm start` makes it.
 * The few that the README shows are named in `kept`; `--all` writes the rest as well.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { browserFlags, installedBrowser } from './browser.mjs';
import { root } from './make-ready.mjs';

const all = process.argv.includes('--all');
const folder = process.argv.slice(2).find((argument) => !argument.startsWith('--')) ?? join(root, 'docs/screenshots');
const widths = [360, 768, 1440];
const kept = ['callout-1440-light', 'callout-360-light', 'debrief-1440-light'];
const family = 'combi-plate-primary';

mkdirSync(folder, { recursive: true });
const data = mkdtempSync(join(tmpdir(), 'provewell-screenshots-'));
const port = await freePort();
const base = `http://127.0.0.1:${port}`;
const server = spawn(process.execPath, ['scripts/start.mjs'], {
	cwd: root,
	env: { ...process.env, PORT: String(port), HOST: '127.0.0.1', PROVEWELL_DATA: data, PROVEWELL_LOG: 'warn' },
	stdio: 'ignore'
});
const browser = await chromium.launch({ executablePath: installedBrowser(), args: browserFlags() });
try {
	await answers(`${base}/health`);
	const context = await browser.newContext({ baseURL: base });
	const page = await context.newPage();
	const pages = await playCallout(page);
	for (const colorScheme of ['light', 'dark']) {
		await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
		for (const [name, path] of pages) {
			for (const width of widths) await picture(page, `${name}-${width}-${colorScheme}`, path, width);
		}
	}
} finally {
	await browser.close();
	server.kill('SIGTERM');
	await new Promise((ended) => server.once('exit', ended));
	rmSync(data, { recursive: true, force: true });
}

/** One callout left in the middle, and one of the server's invented ones. @returns name and path of each page */
async function playCallout(page) {
	await page.goto('/callouts');
	const ended = await page.getByRole('region', { name: 'Examples' }).getByRole('link').first().getAttribute('href');
	await page.goto(ended);
	await page.getByRole('heading', { name: 'The bill' }).waitFor({ timeout: 300_000 });
	const running = await start(page);
	for (const demand of ['heating', 'tap']) await act(page, { kind: 'demand', demand });
	for (const check of ['measure-tap-temperature', 'measure-tap-flow', 'feel-heating-pipe', 'listen-fan-over-time']) {
		await act(page, { kind: 'check', check });
	}
	return [
		['home', '/'],
		['callouts', '/callouts'],
		['family', `/families/${family}`],
		['callout', `${running}?place=diverter-motor`],
		['debrief', ended]
	];
}

async function start(page) {
	await page.goto('/');
	await page.getByRole('button', { name: 'Start a callout' }).click();
	await page.waitForURL(/\/callout\/[\w-]+$/);
	return new URL(page.url()).pathname;
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

async function answers(url) {
	for (let tries = 0; tries < 600; tries++) {
		const answer = await fetch(url).catch(() => null);
		if (answer?.ok) return;
		await new Promise((resolve) => setTimeout(resolve, 200));
	}
	throw new Error(`${url} does not answer`);
}

/** @returns {Promise<number>} */
function freePort() {
	return new Promise((found) => {
		const probe = createServer().listen(0, '127.0.0.1', () => {
			const { port } = probe.address();
			probe.close(() => found(port));
		});
	});
}
