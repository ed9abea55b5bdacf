/** Finds, or where need be installs, the browser that the page tests drive. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, join } from 'node:path';
import { root, run, runLocal } from './make-ready.mjs';

const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const places = ['/Applications/Google Chrome.app/Contents/MacOS/Google Chrome', '/Applications/Chromium.app/Contents/MacOS/Chromium'];

/** @returns {string | undefined} an installed browser: the one CHROMIUM names, else one on the path */
export function installedBrowser() {
	if (process.env.CHROMIUM) return existsSync(process.env.CHROMIUM) ? process.env.CHROMIUM : undefined;
	const onPath = (process.env.PATH ?? '').split(delimiter).flatMap((folder) => names.map((name) => join(folder, name)));
	return [...onPath, ...places].find((file) => existsSync(file));
}

/** The flags a browser needs: root may not use the sandbox, and tests want no calls home. */
export function browserFlags() {
	return [...(process.getuid?.() === 0 ? ['--no-sandbox'] : []), '--disable-background-networking'];
}

/**
 * The browser for the tests: installed, else Playwright's own, else the system's. Says which.
 * @returns {string | undefined} its path, or undefined where none could be had
 */
export function browserOrInstall() {
	const installed = installedBrowser();
	if (installed) return say(`Browser: ${installed}, as installed.`, installed);

	const own = ownBrowser();
	if (own && existsSync(own) && starts(own)) return say(`Browser: Playwright's own, ${own}.`, own);
	console.log("Browser: none installed; fetching Playwright's own.");
	if (runLocal('playwright/cli.js', ['install', 'chromium']) && starts(ownBrowser())) {
		return say(`Browser: Playwright's own, ${ownBrowser()}.`, ownBrowser());
	}

	if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
		console.log("Browser: Playwright's own could not be had; asking the system's package manager.");
		const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
		run('apt-get', ['update', '-qq'], quiet);
		run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet);
		const added = installedBrowser();
		if (added && starts(added)) return say(`Browser: ${added}, from the system's package manager.`, added);
	}
	return say('Browser: none could be found or installed. Install Chromium, or name one: CHROMIUM=/path/to/it npm test', undefined);
}

function say(line, browser) {
	console.log(line);
	return browser;
}

function ownBrowser() {
	return createRequire(join(root, 'package.json'))('@playwright/test').chromium.executablePath();
}

function starts(browser) {
	return spawnSync(browser, ['--version', ...browserFlags()], { stdio: 'ignore', timeout: 20_000 }).status === 0;
}
