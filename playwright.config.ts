import { mkdtempSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { defineConfig } from '@playwright/test';
import { browserFlags, installedBrowser } from './scripts/browser.mjs';

// This file is read once a worker as well; the first reading settles port and folder for all.
process.env.PROVEWELL_TEST_PORT ??= String(await freePort());
process.env.PROVEWELL_TEST_DATA ??= mkdtempSync(join(tmpdir(), 'provewell-pages-'));
const baseURL = `http://127.0.0.1:${process.env.PROVEWELL_TEST_PORT}`;

export default defineConfig({
	testDir: 'tests/pages',
	testMatch: '**/*.test.ts',
	outputDir: 'test-results',
	workers: 2,
	fullyParallel: true,
	forbidOnly: true,
	timeout: 60_000,
	globalTeardown: './tests/pages/clear-data.ts',
	use: {
		baseURL,
		launchOptions: { executablePath: installedBrowser(), args: browserFlags() },
		screenshot: 'only-on-failure',
		trace: 'retain-on-failure'
	},
	webServer: {
		command: `${process.execPath} scripts/start.mjs`,
		url: `${baseURL}/health`,
		timeout: 120_000,
		reuseExistingServer: false,
		gracefulShutdown: { signal: 'SIGTERM', timeout: 5000 },
		env: {
			PORT: process.env.PROVEWELL_TEST_PORT,
			HOST: '127.0.0.1',
			PROVEWELL_DATA: process.env.PROVEWELL_TEST_DATA,
			PROVEWELL_LOG: 'warn',
			PROVEWELL_DEMO: 'visits'
		}
	}
});

/** @returns a port that nothing uses now */
function freePort(): Promise<number> {
	return new Promise((found) => {
		const server = createServer().listen(0, '127.0.0.1', () => {
			const { port } = server.address() as AddressInfo;
			server.close(() => found(port));
		});
	});
}
