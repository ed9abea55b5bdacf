/**
 * Measures what a reader waits for on the callout page and prints it: each interaction on a processor slowed four times, and the largest
 * paint on a simulated slow 4G, as medians of several visits with their spread. It asserts nothing: a busy machine is slower.
 * `npm run measure`; the server is started on an empty data folder, and built first where need be.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { browserFlags, installedBrowser } from './browser.mjs';
import { startServer } from './server.mjs';

const visits = 5;
const slowdown = 4;
/** Slow 4G as page-speed tools take it: 1.6 Mbit/s down, 0.75 Mbit/s up, 150 ms there and back. */
const slow4g = { offline: false, latency: 150, downloadThroughput: (1.6e6 * 0.9) / 8, uploadThroughput: (0.75e6 * 0.9) / 8 };
/** How long a finger or a mouse button stays down. */
const pressMs = 80;
const wanted = { interactionMs: 100, paintMs: 1500 };

const data = mkdtempSync(join(tmpdir(), 'provewell-measure-'));
const server = await startServer(data);
const browser = await chromium.launch({ executablePath: installedBrowser(), args: browserFlags() });
try {
	const interactions = [];
	const paints = [];
	for (let i = 0; i < visits; i++) {
		const { took, address, storageState } = await interact();
		interactions.push(took);
		paints.push(await paint(address, storageState));
	}
	console.log(`Interaction to next paint, processor slowed ${slowdown} times, over ${visits} visits:`);
	for (const name of Object.keys(interactions[0])) {
		show(
			`  ${name}`,
			interactions.map((took) => took[name]),
			wanted.interactionMs
		);
	}
	const slowest = interactions.map((took) => Math.max(...Object.values(took)));
	show('  the slowest of each visit', slowest, wanted.interactionMs);
	show('Largest paint of the callout page, slow 4G, nothing cached', paints, wanted.paintMs);
} finally {
	await browser.close();
	await server.end();
	rmSync(data, { recursive: true, force: true });
}

/** Plays the start of a callout by mouse. @returns how long each of its interactions took [ms] and where the callout is */
async function interact() {
	const context = await browser.newContext({ baseURL: server.address, viewport: { width: 1440, height: 900 } });
	const page = await context.newPage();
	await page.addInitScript(() => {
		window.interactions = [];
		new PerformanceObserver((list) => {
			for (const { interactionId, duration } of list.getEntries()) if (interactionId) window.interactions.push(duration);
		}).observe({ type: 'event', buffered: true, durationThreshold: 16 });
	});
	await page.goto('/');
	await page.getByRole('button', { name: 'Start a callout' }).click();
	await page.waitForURL(/\/callout\/[\w-]+$/);
	await page.locator('.bench.scripted').waitFor();
	const session = await context.newCDPSession(page);
	await session.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
	const clicks = {
		'choose a demand': page.getByRole('radio', { name: /^Tap complained of/ }),
		'run it': page.getByRole('button', { name: /^Run it so/ }),
		'choose a place': page.getByRole('button', { name: /^Hot tap:/ }),
		'take a check': page.getByRole('button', { name: /: Tap temperature / }),
		'put the sheet in order': page.getByRole('link', { name: 'By what they concern' }),
		'open the faults': page.getByText('Which faults are still in', { exact: true }),
		'open the van': page.getByRole('link', { name: 'Van' })
	};
	const took = {};
	for (const [name, click] of Object.entries(clicks)) {
		await page.evaluate(() => (window.interactions.length = 0));
		await click.click({ delay: pressMs });
		await page.waitForTimeout(900);
		// Shorter ones are not told by the browser.
		took[name] = Math.max(16, ...(await page.evaluate(() => window.interactions)));
	}
	const kept = { took, address: page.url(), storageState: await context.storageState() };
	await context.close();
	return kept;
}

/** Loads the page anew over the slow line. @returns when its largest paint came [ms] */
async function paint(address, storageState) {
	const context = await browser.newContext({ storageState, viewport: { width: 360, height: 740 } });
	const page = await context.newPage();
	const session = await context.newCDPSession(page);
	await session.send('Network.enable');
	await session.send('Network.emulateNetworkConditions', slow4g);
	await page.addInitScript(() => {
		new PerformanceObserver((list) => (window.largest = list.getEntries().at(-1).startTime)).observe({
			type: 'largest-contentful-paint',
			buffered: true
		});
	});
	await page.goto(address, { waitUntil: 'networkidle' });
	const largest = await page.evaluate(() => window.largest);
	await context.close();
	return largest;
}

function show(what, values, aim) {
	const sorted = values.toSorted((a, b) => a - b).map(Math.round);
	console.log(`${what}: median ${sorted[sorted.length >> 1]} ms, from ${sorted[0]} to ${sorted.at(-1)} at worst; the aim is under ${aim}`);
}
