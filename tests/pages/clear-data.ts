import { rmSync } from 'node:fs';

/** The page tests' own data folder goes with them. */
export default function clearData(): void {
	rmSync(process.env.PROVEWELL_TEST_DATA!, { recursive: true, force: true });
}
