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
/** Tests of the core, which keeps no state: files that run in one process share what they import. */
const ofCore = ['core', 'published', 'practice'];

export default defineConfig({
	test: {
		maxWorkers: 2,
		projects: Object.entries(folders).map(([name, globalSetup]) => ({
			resolve: { alias },
			test: {
				name,
				include: [`tests/${name}/**/*.test.ts`],
				pool: 'forks' as const,
				isolate: !ofCore.includes(name),
				env: { PROVEWELL_DATA: sharedData },
				setupFiles: 'tests/property-seed.ts',
				testTimeout: 60_000,
				hookTimeout: 180_000,
				globalSetup
			}
		}))
	}
});
