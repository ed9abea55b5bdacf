/**
 * The public optimiser of the scheduler's parameters, where it is installed (`npm run fitting`).
 *
 * It lives in a package folder of its own, `fitting/`, because the product does without it. Two were tried on Node 20: the native binding
 * (0.5.0) is the faster one, some 10 ms against 60 ms for a thousand reviews, but its lock file misses packages and `npm ci` fails; the
 * WebAssembly one (5.2.0) installs cleanly, runs in a worker thread, and found the same parameters as the native one on each of fifteen
 * simulated logs. At one fit a night the difference in time is nothing.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Optimiser } from '#shared/review/fitting/fit.ts';
import { isUsable, type Trail } from '#shared/review/fitting/trail.ts';
import { gradesOf } from '#shared/review/memory/schedule.ts';
import { rootFolder } from '../folders.ts';

/** What is used of the package. */
interface Package {
	initSync(given: { module: Uint8Array }): unknown;
	Fsrs: new () => {
		/** All of length 4 bytes: grades and whole days of all items, one after the other, and how many reviews each item has. */
		computeParameters(grades: Uint32Array, days: Uint32Array, lengths: Uint32Array, progress: undefined, sameDay: boolean): Float32Array;
	};
}

/** Where `npm run fitting` puts it. */
export const optimiserFolder = join(rootFolder, 'fitting/node_modules/fsrs-browser');

export const isInstalled = (folder = optimiserFolder): boolean => existsSync(join(folder, 'package.json'));

/**
 * @param folder of the package
 * @returns null where it is not installed
 * @throws what loading it throws, where it is damaged
 */
export async function optimiserIn(folder = optimiserFolder): Promise<Optimiser | null> {
	if (!isInstalled(folder)) return null;
	// Written for a browser's worker, it listens to `self` for orders to start threads, of which it is never given any.
	Object.assign(globalThis, { self: globalThis.self ?? { addEventListener: () => {} } });
	const code = (await import(/* @vite-ignore */ pathToFileURL(join(folder, 'fsrs_browser.js')).href)) as Package;
	code.initSync({ module: readFileSync(join(folder, 'fsrs_browser_bg.wasm')) });
	return async (trails) => {
		const { grades, days, lengths } = itemsOf(trails);
		// It frees itself: what it is made of is used up by the one call.
		const optimiser = new code.Fsrs();
		return inSilence(() => [...optimiser.computeParameters(grades, days, lengths, undefined, true)]);
	};
}

/** As the optimiser takes them: for each usable review, it and all before it of the same skill. */
export function itemsOf(trails: readonly Trail[]): { grades: Uint32Array; days: Uint32Array; lengths: Uint32Array } {
	const grades: number[] = [];
	const days: number[] = [];
	const lengths: number[] = [];
	for (const { steps } of trails) {
		const all = gradesOf(steps.map(({ recall }) => recall));
		for (const [index, step] of steps.entries()) {
			if (!isUsable(step, index)) continue;
			for (let i = 0; i <= index; i++) {
				grades.push(all[i]!);
				days.push(steps[i]!.days);
			}
			lengths.push(index + 1);
		}
	}
	return { grades: Uint32Array.from(grades), days: Uint32Array.from(days), lengths: Uint32Array.from(lengths) };
}

/** It tells its progress on the console, which belongs to others. */
function inSilence<T>(work: () => T): T {
	const { debug, info, log } = console;
	const nothing = () => {};
	Object.assign(console, { debug: nothing, info: nothing, log: nothing });
	try {
		return work();
	} finally {
		Object.assign(console, { debug, info, log });
	}
}
