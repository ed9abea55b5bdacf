import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const alias = { $lib: fileURLToPath(new URL('./src/lib', import.meta.url)) };

/** Folders of tests that vitest runs; `tests/pages` is Playwright's. Those that need the built server build it first when sources changed. */
const folders = [
	{ name: 'core', build: false },
	{ name: 'published', build: false },
	{ name: 'practice', build: false },
	{ name: 'server', build: true },
	{ name: 'abuse', build: true }
];

export default defineConfig({
	test: {
		maxWorkers: 2,
		projects: folders.map(({ name, build }) => ({
			resolve: { alias },
			test: {
				name,
				include: [`tests/${name}/**/*.test.ts`],
				pool: 'forks' as const,
				testTimeout: 60_000,
				// A first evidence table may have to be made; afterwards it is read from disk.
				hookTimeout: 180_000,
				globalSetup: build ? ['tests/build-first.ts'] : []
			}
		}))
	}
});
