import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { sharedData } from './tests/test-data.ts';

const alias = { $lib: fileURLToPath(new URL('./src/lib', import.meta.url)) };
const evidence = 'tests/evidence-first.ts';
const build = 'tests/build-first.ts';

/** Folders of tests that vitest runs, and what must stand before each; `tests/pages` is Playwright's. */
const folders: Record<string, string[]> = {
	core: [evidence],
	published: [],
	practice: [evidence],
	server: [evidence, build],
	abuse: [evidence, build]
};

export default defineConfig({
	test: {
		maxWorkers: 2,
		projects: Object.entries(folders).map(([name, globalSetup]) => ({
			resolve: { alias },
			test: {
				name,
				include: [`tests/${name}/**/*.test.ts`],
				pool: 'forks' as const,
				env: { PROVEWELL_DATA: sharedData },
				testTimeout: 60_000,
				hookTimeout: 180_000,
				globalSetup
			}
		}))
	}
});
