/**
 * Plays callouts through the running server and reads everything that comes back as a curious learner would: pages, data, headers, cookies.
 * The names of all the faults that a family can have are shown to everyone, to judge against; which one it is must not be.
 */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { demands } from '#shared/appliance/model.ts';
import { act } from '#shared/callout/act.ts';
import type { Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { follow } from '#shared/callout/follow.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { CalloutView } from '#shared/callout/view.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { formOf, guestOf } from '../guest.ts';
import { runServer, type RunningServer } from '../running-server.ts';
import { makeDataFolder, removeFolder } from '../test-data.ts';
import type { Answer, Visitor } from '../visitor.ts';

const folder = makeDataFolder();
const [pack] = packs().values();
let server: RunningServer;
let db: Database;
beforeAll(async () => {
	server = await runServer(folder);
	db = openDatabase(folder);
});
afterAll(async () => {
	db.$client.close();
	await server.end();
	removeFolder(folder);
});

interface Played {
	readonly fault: string;
	readonly attemptId: string;
	readonly visitor: Visitor;
	/** The same callout played beside the server's, to know which readings have been shown. */
	readonly callout: Callout;
	state: CalloutState;
}

async function begin(seed: number, fault: string): Promise<Played> {
	const { visitor, learnerId } = await guestOf(folder, server.address);
	// Coached: what a prediction is compared with must not tell either.
	visitor.cookies.set('provewell-coaching', '1');
	const started = calloutsIn(db, packs()).start(learnerId, { family: pack!.family.id, seed, fault });
	if (started.outcome !== 'started') throw new Error(started.says);
	const callout = makeCallout(pack!, seed, fault);
	return { fault, attemptId: started.attemptId, visitor, callout, state: replay(callout, []) };
}

/** All that is the same for one and the same callout, whatever its id and the moment. */
function plain({ status, body, headers }: Answer, { attemptId }: Played): string {
	return `${status}\n${headers}\n${body}`
		.replaceAll(attemptId, 'ATTEMPT')
		.replaceAll(/nonce[-="]+[^"']+["']/g, 'NONCE')
		.replaceAll(/^(date|etag|content-length): .*$/gm, '');
}

/** One action, then everything that can be asked for about the callout while it runs. */
async function actAndLook(one: Played, action: Action | null): Promise<string> {
	const path = `/callout/${one.attemptId}`;
	const answers = action ? [await one.visitor.post(`${path}?/act`, formOf(action, one.state.events.length))] : [];
	// A prediction goes with its check in one form.
	const acted = action?.kind === 'predict' ? [action, { kind: 'check' as const, check: action.check }] : action ? [action] : [];
	for (const each of acted) {
		const next = act(one.callout, one.state, each);
		if (!('refused' in next)) one.state = next;
	}
	for (const more of ['', '/__data.json', '/debrief', '/debrief/__data.json']) answers.push(await one.visitor.get(`${path}${more}`));
	return answers.map((answer) => plain(answer, one)).join('\n');
}

/** Says the same of the first two faults, whichever hides. */
function predicted(check: string): Action {
	return { kind: 'predict', check, expects: pack!.faults.slice(0, 2).map(({ id }) => ({ fault: id, reads: 'lower' })) };
}

/** Looks at the appliance in each demand, opens it, and takes what checks are to be had on the way. */
function* script(view: () => CalloutView): Generator<Action> {
	const checks = function* (most: number): Generator<Action> {
		for (let i = 0; i < most; i++) {
			const now = view();
			const check = now.checks.find(
				({ unmet, taken, under, live }) => unmet.length === 0 && taken === 0 && under.includes(now.demand) && !live
			);
			if (check) yield { kind: 'check', check: check.id };
		}
	};
	yield* checks(2);
	yield { kind: 'demand', demand: 'tap' };
	yield { kind: 'check', check: 'listen-fan-over-time' };
	yield predicted('measure-tap-temperature');
	yield predicted('measure-tap-flow');
	yield* checks(4);
	yield { kind: 'demand', demand: 'heating' };
	yield* checks(2);
	for (const step of view().steps.filter(({ sets }) => sets.includes('casing-off'))) yield { kind: 'step', step: step.id };
	yield* checks(2);
	yield { kind: 'judge', still: [] };
	yield { kind: 'check', check: 'no-such-check' };
}

/** Numbers that only the server may know, as they would look if one were printed: enough digits that none is there by chance. */
function secretsOf(seed: number, fault: string): string[] {
	const { severity, faulty } = makeCallout(pack!, seed, fault);
	const runs = demands
		.filter((demand) => pack!.family.demands.some(({ id }) => id === demand))
		.map((demand) => pack!.model.settle(faulty, demand));
	const numbers = [severity, ...Object.values(faulty), ...runs.flatMap((run) => Object.values(run))];
	const long = numbers.map((number) => String(Math.abs(number))).filter((text) => /^\d*\.\d{6,}$/.test(text));
	return [String(seed), ...new Set(long.map((text) => text.slice(0, text.indexOf('.') + 7)))].filter((text) => !/^0\.0+/.test(text));
}

/** Followed values as a page carries them. */
const written = (values: readonly number[]) => `[${values.join(',')}]`;

/** The runs that were shown, and those of the machine without its fault that were not, for the checks over time that were taken. */
function runsOf({ callout, state }: Played): { shown: string[]; sound: string[] } {
	const shown = state.readings.flatMap(({ trace }) => trace?.lines.map(({ values }) => written(values)) ?? []);
	const sound = state.readings.flatMap(({ trace, check, demand }) => {
		const taken = trace && pack!.checks.find(({ id }) => id === check);
		return taken ? follow(pack!, callout.sound, taken, demand)!.lines.map(({ values }) => written(values)) : [];
	});
	return { shown, sound: [...new Set(sound)].filter((values) => !shown.includes(values)) };
}

/** The items in groups of one key, in the order met. */
function grouped<Item>(items: readonly Item[], keyOf: (item: Item) => string): Map<string, Item[]> {
	const groups = new Map<string, Item[]>();
	for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
	return groups;
}

it.each([1987650001, 1987650003, 1987650008])(
	'shows two faults alike until a reading differs, and no secret number (seed %i)',
	async (seed) => {
		const faults = pack!.faults.map(({ id }) => id);
		const byComplaint = grouped(faults, (fault) => {
			const { complaintSays, household } = makeCallout(pack!, seed, fault);
			return `${complaintSays} ${household.says}`;
		});
		const group = [...byComplaint.values()].reduce((largest, one) => (one.length > largest.length ? one : largest)).slice(0, 5);
		expect(group.length).toBeGreaterThan(2);

		const played = await Promise.all(group.map((fault) => begin(seed, fault)));
		const [first] = played;
		let compared = 0;
		/** Those that have shown the same as each other so far, in classes. */
		const look = async (action: Action | null) => {
			const pages = new Map<Played, string>();
			for (const one of played) pages.set(one, await actAndLook(one, action));
			for (const alike of grouped(played, (one) => JSON.stringify(one.state.readings)).values()) {
				for (const one of alike.slice(1)) {
					expect(pages.get(one), `${one.fault} and ${alike[0]!.fault} differ without a differing reading`).toBe(pages.get(alike[0]!));
					compared++;
				}
			}
		};
		await look(null);
		for (const action of script(() => viewOf(first!.callout, first!.state))) await look(action);
		expect(compared).toBeGreaterThan(group.length);

		expect(played.flatMap((one) => runsOf(one).sound).length, 'sound runs that must not be sent').toBeGreaterThan(played.length / 2);
		for (const one of played) {
			const everything =
				one.visitor.answers.map(({ body, headers }) => `${headers}\n${body}`).join('\n') + [...one.visitor.cookies].join('\n');
			const secrets = secretsOf(seed, one.fault);
			expect(secrets.length).toBeGreaterThan(50);
			expect(secrets.filter((secret) => everything.includes(secret))).toEqual([]);
			const runs = runsOf(one);
			expect(runs.shown.filter((run) => !everything.includes(run))).toEqual([]);
			expect(runs.sound.filter((run) => everything.includes(run))).toEqual([]);
			expect(everything).not.toMatch(/severity|"seed"|"drawn"|packHash|"because"|"faulty"/i);
		}
	}
);
