/** A request that is refused makes no guest: nobody fills the database with learners who have nothing. */
import { isHttpError } from '@sveltejs/kit';
import { describe, expect, it } from 'vitest';
import { database } from '$lib/server/database/open.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { actions as start } from '../../src/routes/+page.server.ts';
import { actions as drills } from '../../src/routes/drills/+page.server.ts';
import { actions as refresher } from '../../src/routes/refresher/[met]/+page.server.ts';
import { actions as recall } from '../../src/routes/settings/recall/+page.server.ts';
import { actions as reminders } from '../../src/routes/settings/reminders/+page.server.ts';
import { actions as tonight } from '../../src/routes/tonight/+page.server.ts';
import { Browser } from '../arriving.ts';
import { oneServer } from '../server/practice/someone-practised.ts';
import { countRows } from '../server/someones-rows.ts';

oneServer();
const [first, second] = [...packs().keys()] as [string, string];
type Fields = Record<string, string> | [string, string][];
type Action = (event: never) => unknown;

/** What the action answers, whether it throws it or returns it; the browser that asked. */
async function ask(action: Action | undefined, body: BodyInit, params = {}) {
	const browser = new Browser();
	const request = new Request('http://localhost/', { method: 'POST', body });
	const event = { ...(await browser.arrive()), request, params };
	const answer = await Promise.resolve(event as never)
		.then(action)
		.catch((thrown: unknown) => thrown);
	return { answer: answer as { status?: number }, browser };
}

const refused: [string, Action | undefined, Fields, object?][] = [
	['a callout on a family not in stock', start.start, { family: 'no-such-family' }],
	['a callout on none', start.start, {}],
	['a drill of no kind that there is', drills.ask, { kind: 'no-such-kind' }],
	['a drill of none', drills.ask, {}],
	...['', '15', '-10', '1e9', 'twenty'].map((minutes): [string, Action | undefined, Fields] => [
		`a round of "${minutes}" minutes`,
		tonight.begin,
		{ minutes }
	]),
	...['', '0.5', '0.850', 'much'].map((retention): [string, Action | undefined, Fields] => [
		`a recall of "${retention}"`,
		recall.default,
		{ retention }
	]),
	['a refresher of a family not in stock', refresher.begin, { known: first }, { met: 'no-such-family' }],
	['a refresher against none', refresher.begin, {}, { met: first }],
	['a refresher against itself', refresher.begin, { known: first }, { met: first }]
];

describe('refused, it leaves nobody:', () => {
	it.each(refused)('%s', async (_, action, fields, params) => {
		const before = countRows(database());
		const { answer, browser } = await ask(action, new URLSearchParams(fields), params);
		// Back to where it can be chosen anew, or what is wrong.
		expect(answer.status).toBeGreaterThanOrEqual(303);
		if (answer.status === 303) expect(answer).toMatchObject({ location: expect.stringMatching(/^\/refresher\?/) });
		expect(countRows(database())).toEqual(before);
		expect(browser.jar.size).toBe(0);
	});

	it.each([start.start, drills.ask, tonight.begin, recall.default, reminders.make, refresher.begin] as Action[])(
		'what is no form',
		async (action) => {
			const before = countRows(database());
			const { answer } = await ask(action, 'no form', { met: first });
			expect(isHttpError(answer, 400)).toBe(true);
			expect(countRows(database())).toEqual(before);
		}
	);
});

describe('taken, it makes one who has something:', () => {
	it.each([
		['a callout', start.start, { family: first }],
		['a round', tonight.begin, { minutes: '20' }],
		['a recall', recall.default, { retention: '0.9' }],
		['a calendar', reminders.make, {}],
		['a refresher', refresher.begin, { known: second }, { met: first }]
	] as [string, Action, Fields, object?][])('%s', async (_, action, fields, params) => {
		const { browser } = await ask(action, new URLSearchParams(fields), params);
		expect(await browser.learner()).toMatchObject({ guest: true });
	});
});
