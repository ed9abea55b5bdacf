/**
 * Fitting on a real database, in its worker, with the optimiser and without. Where it is not installed, as in a plain clone, a package of the
 * same shape stands in for it, so that both ways are gone on every machine; the last test takes the real one where there is one.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { join } from 'node:path';
import { eq } from 'drizzle-orm';
import { expect, it, onTestFinished } from 'vitest';
import { addLearner } from '$lib/server/accounts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { fit, learner, review } from '$lib/server/database/schema.ts';
import { isTimeToFit } from '$lib/server/fitting/fit-at-night.ts';
import { fitShown } from '$lib/server/fitting/fit-shown.ts';
import { fitEveryone } from '$lib/server/fitting/fitting.ts';
import { memoriesIn } from '$lib/server/practice/memories.ts';
import { isInstalled, itemsOf, optimiserFolder } from '$lib/server/fitting/optimiser.ts';
import { usableItems, type Trail } from '#shared/review/fitting/trail.ts';
import { defaultScheduler } from '#shared/review/memory/schedule.ts';
import { drawnTrails, jittered } from '../core/review/drawn-trails.ts';
import { freshFolder } from './fresh.ts';
import { run } from '../../src/cli/run.ts';

const defaults = defaultScheduler.parameters;
const nowhere = '/nowhere/fsrs-browser';
const later = Date.UTC(2028, 0, 1, 12);
const hourMs = 3_600_000;

const schedulerInForce = (learnerId: string, db: Database) => memoriesIn(db).schedulerOf(learnerId);

function freshDatabase(): Database {
	const db = openDatabase(freshFolder());
	onTestFinished(() => void db.$client.close());
	return db;
}

/** Learners with these trails in the log. @returns their ids by the names of the trails */
function practised(db: Database, trails: readonly Trail[]): Map<string, string> {
	const ids = new Map(
		[...new Set(trails.map((trail) => trail.learner))].map((name) => [name, addLearner({ guest: true, invented: false }, db).id])
	);
	const rows = trails.flatMap(({ learner: name, skill, steps }) =>
		steps.map(({ at, recall }) => ({ learner: ids.get(name)!, skill, at: new Date(at), recall, minutes: 3 }))
	);
	rows.sort((a, b) => a.at.getTime() - b.at.getTime());
	db.transaction(() => rows.forEach((row) => db.insert(review).values(row).run()));
	return ids;
}

/** A package of the optimiser's shape, whose parameters are as given, or whose code is. */
function packageThat(computes: readonly number[] | string): string {
	const folder = join(freshFolder(), 'fsrs-browser');
	mkdirSync(folder);
	const body = typeof computes === 'string' ? computes : `console.log('epoch'); return Float32Array.from(${JSON.stringify(computes)});`;
	writeFileSync(join(folder, 'package.json'), '{ "type": "module" }');
	writeFileSync(join(folder, 'fsrs_browser_bg.wasm'), '');
	writeFileSync(
		join(folder, 'fsrs_browser.js'),
		`export function initSync() {}\nexport class Fsrs { computeParameters(grades, days, lengths) { ${body} }}\n`
	);
	return folder;
}

it('leaves the defaults in force under 64 usable reviews, and says so', async () => {
	const db = freshDatabase();
	const [id] = practised(db, drawnTrails(1, jittered(1), 63)).values();
	expect(await fitEveryone(db, later, nowhere)).toEqual([]);
	expect(db.select().from(fit).all()).toEqual([]);
	expect(schedulerInForce(id!, db)).toEqual(defaultScheduler);
	const shown = fitShown(id!, db, nowhere);
	expect(shown).toMatchObject({ optimiser: false, uses: 'defaults', everyone: { items: 63, extent: 'defaults', latest: null } });
	expect(shown.says.join(' ')).toMatch(/63 usable reviews\. Under 64 the published parameters hold/);
});

it('without the optimiser fits no more than the first four, says so, and keeps the published 17', async () => {
	const db = freshDatabase();
	const truth = [0.6, 5, 12, ...defaults.slice(3)];
	const ids = practised(db, drawnTrails(2, truth, 1200, 4));
	const [everyone, ...each] = await fitEveryone(db, later, nowhere);
	expect(everyone).toMatchObject({ learner: null, extent: 'first-stabilities', lacks: 'the optimiser is not installed', chosen: 'fit' });
	expect(everyone!.after).toBeLessThan(Math.min(everyone!.before, everyone!.average));
	expect(each.map((one) => one.learner).sort()).toEqual([...ids.values()].sort());
	for (const id of ids.values()) {
		const { parameters } = schedulerInForce(id, db);
		expect(parameters.slice(4)).toEqual(defaults.slice(4));
		expect(parameters).not.toEqual(defaults);
		const shown = fitShown(id, db, nowhere);
		expect(shown.says.join(' ')).toMatch(/optimiser is not installed on this server.*npm run fitting/);
		expect(shown.everyone.latest).toMatchObject({ came: 'used', before: everyone!.before, after: everyone!.after });
		expect(shown.everyone.latest!.fitted).toBeLessThanOrEqual(4);
	}
});

it('with one, fits everything from 512 in the worker, for each learner only where it does better for them', async () => {
	const db = freshDatabase();
	const truth = jittered(9, 1, 0.4);
	const ids = practised(db, drawnTrails(9, truth, 2000, 3));
	const own = { retention: 0.9, zone: 'Pacific/Auckland' };
	const first = ids.get('a')!;
	db.update(learner).set(own).where(eq(learner.id, first)).run();
	const tried = await fitEveryone(db, later, packageThat(truth));
	expect(tried[0]).toMatchObject({ learner: null, extent: 'all', lacks: null, chosen: 'fit' });
	expect(tried).toHaveLength(4);
	for (const { learner: id, chosen, before, after, average, parameters } of tried) {
		const rows = db.select().from(fit).all();
		const row = rows.find((one) => one.learner === id)!;
		expect(row).toMatchObject({ before, after, kept: chosen === 'fit', parameters: JSON.stringify(parameters) });
		if (chosen === 'fit') expect(after).toBeLessThan(Math.min(before, average));
		if (id !== null) {
			const expected = chosen === 'fit' ? parameters : tried[0]!.parameters;
			expect(schedulerInForce(id, db).parameters).toEqual(expected);
		}
	}
	expect(schedulerInForce(first, db)).toMatchObject(own);
	expect(fitShown(first, db, nowhere).everyone.latest).toMatchObject({ items: tried[0]!.items, came: 'used' });
});

it('keeps what is in force, and the server up, when the optimiser or its package is broken', async () => {
	const db = freshDatabase();
	const [id] = practised(db, drawnTrails(4, defaults, 600)).values();
	const broken = packageThat('throw new Error("unreachable")');
	const damaged = packageThat('');
	writeFileSync(join(damaged, 'fsrs_browser.js'), 'this is no code');
	for (const [folder, says] of [
		[broken, /the optimiser failed: unreachable/],
		[damaged, /the optimiser failed: /],
		[packageThat([1, 2, 3]), /21 finite parameters/],
		[packageThat('return new Float32Array(21).fill(NaN);'), /21 finite parameters/]
	] as const) {
		const [tried] = await fitEveryone(db, later, folder);
		expect(tried).toMatchObject({ extent: 'first-stabilities', lacks: expect.stringMatching(says) });
		const { parameters } = schedulerInForce(id!, db);
		expect(parameters.slice(4)).toEqual(defaults.slice(4));
	}
});

it('writes down a fit that is no better, and does not use it', async () => {
	const db = freshDatabase();
	// The first four are fitted as well, so that a log is sought on which they do not help by chance either.
	for (let seed = 20; ; seed++) {
		const trails = drawnTrails(seed, defaults, 520);
		const ids = practised(db, trails);
		const [tried] = await fitEveryone(db, later, packageThat(jittered(99, 2, 1)));
		if (tried!.chosen === 'in-force') {
			const [id] = ids.values();
			expect(db.select().from(fit).all().at(-1)).toMatchObject({ kept: false });
			expect(schedulerInForce(id!, db).parameters).toEqual(defaults);
			expect(fitShown(id!, db).says.join(' ')).toMatch(/It is not used/);
			return;
		}
		db.delete(learner).run();
		db.delete(fit).run();
		expect(seed).toBeLessThan(40);
	}
});

it('gives up a fit that does worse than everyone, whose later fits then reach that learner too', async () => {
	const db = freshDatabase();
	// A log is sought on which neither the first four help by chance.
	for (let seed = 50; ; seed++) {
		const [id] = practised(db, drawnTrails(seed, defaults, 400, 2)).values();
		const row = { items: 200, version: defaultScheduler.version, before: 0.5, after: 0.4, kept: true };
		const own = jittered(99, 2, 1);
		db.insert(fit)
			.values({ ...row, learner: id!, at: new Date(0), parameters: JSON.stringify(own) })
			.run();
		expect(schedulerInForce(id!, db).parameters).toEqual(own);
		const tried = (await fitEveryone(db, later, nowhere)).find((one) => one.learner === id)!;
		if (tried.chosen === 'fallback') {
			const shown = fitShown(id!, db, nowhere);
			expect(shown.uses).not.toBe('own');
			expect(shown.own.latest).toMatchObject({ came: 'given-up', fitted: 0, before: tried.before, after: tried.fallback });
			expect(shown.says.join(' ')).not.toMatch(/fitted to you/);
			const better = defaults.map((value, i) => (i < 4 ? value * 1.5 : value));
			db.insert(fit)
				.values({ ...row, learner: null, at: new Date(later), parameters: JSON.stringify(better) })
				.run();
			expect(schedulerInForce(id!, db).parameters).toEqual(better);
			// Nor does what had been given up come back where everyone's fit is given up as well.
			db.insert(fit)
				.values({ ...row, learner: null, at: new Date(later), parameters: '[]' })
				.run();
			expect(schedulerInForce(id!, db).parameters).toEqual(defaults);
			expect(fitShown(id!, db, nowhere).uses).toBe('defaults');
			return;
		}
		db.delete(learner).run();
		db.delete(fit).run();
		expect(seed).toBeLessThan(80);
	}
});

it('fits once in a night, in quiet, and only when there is something new', async () => {
	const db = freshDatabase();
	const time = (at: number, lines = 0) => isTimeToFit(db, at, lines, 'UTC');
	expect(time(later)).toBe(false);
	const trails = drawnTrails(5, defaults, 100);
	const [id] = practised(db, trails).values();
	// Eight in the evening, as all of them.
	const last = Math.max(...trails.flatMap(({ steps }) => steps.map(({ at }) => at)));
	expect(time(last + hourMs / 6)).toBe(false);
	expect(time(last + hourMs)).toBe(true);
	expect(time(last + hourMs, Number.MAX_SAFE_INTEGER)).toBe(false);
	const fitted = last + hourMs;
	expect(await fitEveryone(db, fitted, nowhere)).toHaveLength(1);
	expect(time(fitted + 72 * hourMs)).toBe(false);
	db.insert(review)
		.values({ learner: id!, skill: 'new', at: new Date(fitted + 60_000), recall: 'sound', minutes: 3 })
		.run();
	// The day turns at 04:00, seven hours after the fit.
	expect(time(fitted + 6.9 * hourMs)).toBe(false);
	expect(time(fitted + 7.1 * hourMs)).toBe(true);
});

it('leaves the server free while it fits', async () => {
	const db = freshDatabase();
	practised(db, drawnTrails(6, jittered(6), 1200, 2));
	const slow = packageThat(
		`for (const end = Date.now() + 700; Date.now() < end; ); return Float32Array.from(${JSON.stringify(defaults)});`
	);
	const delay = monitorEventLoopDelay({ resolution: 5 });
	delay.enable();
	const began = performance.now();
	expect(await fitEveryone(db, later, slow)).toHaveLength(3);
	const tookMs = performance.now() - began;
	delay.disable();
	// Worked out where the server answers, it would be held up for all of that time.
	expect(delay.max / 1e6).toBeLessThan(tookMs / 3);
});

it('gives the optimiser each usable review with all before it', () => {
	const steps = [
		{ at: 1, days: 0, recall: 'fluent' },
		{ at: 2, days: 0, recall: 'fluent' },
		{ at: 3, days: 4, recall: 'lost' },
		{ at: 4, days: 9, recall: 'laboured' }
	] as const;
	const { grades, days, lengths } = itemsOf([{ learner: 'a', skill: 's', steps }]);
	expect([...lengths]).toEqual([3, 4]);
	expect([...grades]).toEqual([3, 4, 1, 3, 4, 1, 2]);
	expect([...days]).toEqual([0, 0, 4, 0, 0, 4, 9]);
});

it('is run from a terminal', async () => {
	const printed: string[] = [];
	const terminal = { out: (text: string) => void printed.push(text), err: (text: string) => void printed.push(text) };
	expect(await run(['fit', '--json'], () => new Map(), terminal)).toBe(0);
	expect(JSON.parse(printed.join(''))).toEqual({ optimiser: isInstalled(), tried: expect.any(Array) });
});

it('says of the optimiser what is so on this machine, and improves on simulated learners with what there is', async () => {
	const db = freshDatabase();
	// Learners unlike the published parameters in all 21 where all can be fitted, else in the first three.
	const truth = isInstalled() ? jittered(9, 1, 0.4) : [0.6, 5, 12, ...defaults.slice(3)];
	const trails = drawnTrails(9, truth, 2000);
	const [id] = practised(db, trails).values();
	const [everyone] = await fitEveryone(db, later, optimiserFolder);
	expect(everyone).toMatchObject({ items: usableItems(trails), chosen: 'fit' });
	expect(everyone!.after).toBeLessThan(Math.min(everyone!.before, everyone!.average));
	const shown = fitShown(id!, db);
	if (isInstalled()) {
		expect(everyone).toMatchObject({ extent: 'all', lacks: null });
		expect(shown.optimiser).toBe(true);
		expect(shown.everyone.latest!.fitted).toBeGreaterThan(4);
	} else {
		expect(everyone).toMatchObject({ extent: 'first-stabilities', lacks: 'the optimiser is not installed' });
		expect(shown.says.join(' ')).toMatch(/optimiser is not installed/);
		expect(schedulerInForce(id!, db).parameters.slice(4)).toEqual(defaults.slice(4));
	}
});
