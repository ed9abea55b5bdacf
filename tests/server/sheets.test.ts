import { describe, expect, it } from 'vitest';
import { eq } from 'drizzle-orm';
import type { ItemResult } from '#shared/assessment/result.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { replay } from '#shared/callout/replay.ts';
import { mark } from '#shared/marking/mark.ts';
import type { Action } from '#shared/callout/action.ts';
import { auditOf, verifyAudit } from '$lib/server/audit/audit.ts';
import type { Database } from '$lib/server/database/open.ts';
import { action, drill, itemMark, paper, sitting } from '$lib/server/database/schema.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { markingIn } from '$lib/server/sheets/marking.ts';
import { sheetOf } from '$lib/server/sheets/sheet.ts';
import { firstPack, hourMs } from '../papers.ts';
import { layPaper, rightAnswer, scaled, shortPath, sit, sum } from '../sat.ts';
import { scene } from './mark-scene.ts';

const stored = (db: Database, id: string): ItemResult[] =>
	db
		.select()
		.from(itemMark)
		.where(eq(itemMark.sitting, id))
		.all()
		.map(({ content }) => JSON.parse(content) as ItemResult);

describe('marking', () => {
	it('gives each item what the core makes of pack, seed and actions, and stores it once with the trail', async () => {
		const one = scene();
		const id = sit(one.db, one, { written: rightAnswer() });
		await Promise.all([one.marking.mark(id), one.marking.mark(id), markingIn(one.db, packs()).mark(id)]);
		const { seed, fault } = scaled();
		const callout = makeCallout(firstPack(), seed, fault);
		const state = replay(callout, [...shortPath]);
		const sheet = mark(callout, state, await evidenceFor(firstPack()));
		const [first, second, third] = stored(one.db, id);
		expect(first).toEqual({ kind: 'callout', sheet, cured: false, minutes: state.minutes, spent: state.spent, finished: false });
		expect(second).toEqual({ kind: 'untried', of: 'callout' });
		expect(third).toMatchObject({ kind: 'drill', right: true, seconds: 40, said: [rightAnswer()], answer: [rightAnswer()] });
		expect(
			one.db
				.select()
				.from(itemMark)
				.all()
				.map(({ got, outOf }) => [got, outOf])
		).toEqual([
			[sheet.total, 100],
			[0, 100],
			[10, 10]
		]);
		expect(auditOf(one.db, id).map(({ kind, by, cohort }) => [kind, by, cohort])).toEqual([['sitting-marked', null, one.cohort]]);
		expect(verifyAudit(one.db)).toMatchObject({ outcome: 'whole', rows: 1 });
	});

	it('marks what was cut off as it stood: before anything but the tap, with work half done, cured but not proved', async () => {
		const one = scene();
		const open: Action[] = ['open-casing', 'isolate-electricity', 'prove-dead', 'isolate-water'].map((step) => ({ kind: 'step', step }));
		const cure: Action = { kind: 'remedy', remedy: 'descale-plate', sure: 'guess' };
		const paths: Action[][] = [[{ kind: 'demand', demand: 'tap' }], [...open.slice(0, 2)], [...open, cure]];
		const results: ItemResult[] = [];
		for (const [index, path] of paths.entries()) {
			const id = sit(one.db, one, { name: `Cut off ${index}`, paths: [path, null] });
			await one.marking.mark(id);
			results.push(stored(one.db, id)[0]!);
		}
		expect(results.map((result) => result.kind === 'callout' && [result.finished, result.cured])).toEqual([
			[false, false],
			[false, false],
			[false, true]
		]);
		const said = results.flatMap((result) => (result.kind === 'callout' ? [result.sheet.lines.map(({ says }) => says)] : []));
		expect(said[0]).toContain('The fault was still there at the end.');
		expect(said[2]).toContain('The repair was not proved under the demand complained of.');
		expect(said[2]!.join(' ')).not.toMatch(/left dangerous/);
	});

	it('gives nothing for a callout that was opened and left as it was, a drill not answered, and a drill answered wrongly', async () => {
		const one = scene();
		const left = sit(one.db, one, { paths: [[], null] });
		const wrong = sit(one.db, one, { paths: [null, null], written: '999999' });
		await one.marking.mark(left);
		await one.marking.mark(wrong);
		expect(stored(one.db, left)).toEqual([
			{ kind: 'untried', of: 'callout' },
			{ kind: 'untried', of: 'callout' },
			{ kind: 'untried', of: 'drill' }
		]);
		expect(stored(one.db, wrong)[2]).toMatchObject({ kind: 'drill', right: false });
		expect(sheetOf(one.db, wrong)!.outcome).toMatchObject({ got: 0, outOf: 210, percent: 0, passed: false });
	});

	it('leaves a running sitting alone, and marks what a stop of the server left behind', async () => {
		const one = scene();
		const running = sit(one.db, one, { name: 'Still at it', row: { ended: null, endedBy: null } });
		const closed = sit(one.db, one, { name: 'Left behind' });
		await one.marking.mark(running);
		expect(stored(one.db, running)).toEqual([]);
		expect(one.marking.leftBehind()).toEqual([closed]);
		await one.marking.mark(closed);
		expect(one.marking.leftBehind()).toEqual([]);
		expect(sheetOf(one.db, running)).toBeNull();
	});

	it('stores nothing of a sitting of which one item can no longer be made, and goes on with the next', async () => {
		const one = scene();
		const odd = sit(one.db, one, { name: 'Another version', written: '3' });
		const next = sit(one.db, one, { name: 'After it' });
		one.db
			.update(drill)
			.set({ generator: 'no-such-generator' })
			.where(eq(drill.learner, learnerOf(one.db, odd)))
			.run();
		const failed = one.marking.mark(odd);
		const after = one.marking.mark(next);
		await expect(failed).rejects.toThrow(/no-such-generator/);
		await after;
		expect(stored(one.db, odd)).toEqual([]);
		expect(stored(one.db, next).length).toBe(3);
		expect(one.marking.leftBehind()).toEqual([odd]);
	});
});

describe('a sitting that could not be marked', () => {
	const minute = 60_000;
	async function failing() {
		const one = scene();
		const id = sit(one.db, one, { written: '3' });
		const ofLearner = eq(drill.learner, learnerOf(one.db, id));
		const { generator } = one.db.select().from(drill).where(ofLearner).get()!;
		const lay = (generator: string) => void one.db.update(drill).set({ generator }).where(ofLearner).run();
		lay('no-such-generator');
		const fail = (now: number) => expect(one.marking.mark(id, () => now)).rejects.toThrow(/no-such-generator/);
		return { ...one, id, fail, mend: () => lay(generator) };
	}

	it('is tried again by itself, with longer and longer pauses up to an hour, and is marked once it can be', async () => {
		const { marking, id, fail, mend, db } = await failing();
		let now = Date.now();
		expect(marking.due(now)).toEqual([id]);
		const pauses: number[] = [];
		for (let tries = 0; tries < 9; tries++) {
			await fail(now);
			let minutes = 0;
			while (marking.due(now + minutes * minute).length === 0) minutes++;
			pauses.push(minutes);
			now += minutes * minute;
		}
		expect(pauses).toEqual([1, 2, 4, 8, 16, 32, 60, 60, 60]);
		mend();
		const again = marking.mark(id, () => now);
		expect(marking.due(now)).toEqual([]);
		await again;
		expect(sheetOf(db, id)).not.toBeNull();
		expect([marking.due(now + 60 * minute), marking.unmarked(id)]).toEqual([[], null]);
	});

	it('says so: to its assessor what is lacking, to its learner that it is not marked, and nothing more', async () => {
		const { sheets, assessor, at, id, fail, mend, marking, shown } = await failing();
		const list = () => sheets.list(assessor, at)!.unmarked;
		expect(list()).toMatchObject([{ id, isRunning: false, failed: null }]);
		expect(shown(id)).toMatchObject({ outcome: 'closed', isStuck: false });
		await fail(Date.now());
		expect(list()).toMatchObject([{ id, failed: { lacks: expect.stringMatching(/^the drill no-such-generator cannot be made again/) } }]);
		expect(shown(id)).toMatchObject({ outcome: 'closed', isStuck: true });
		expect(JSON.stringify(shown(id))).not.toContain('no-such-generator');
		mend();
		await marking.mark(id);
		expect(list()).toEqual([]);
		expect(shown(id).outcome).toBe('told');
	});
});

const learnerOf = (db: Database, sittingId: string) =>
	db.$client.prepare('select m.learner from member m join sitting s on s.member = m.id where s.id = ?').pluck().get(sittingId) as string;

describe('a mark sheet', () => {
	it('links every line to an action of the path that is shown, which holds readings and times', async () => {
		const one = scene();
		const id = sit(one.db, one, { written: '3' });
		await one.marking.mark(id);
		const page = one.sheets.page(one.assessor, { ...one.at, sitting: id })!;
		const [first, second] = page.items;
		if (first?.result.kind !== 'callout' || !first.path) throw new Error('the first item has no path');
		const { events } = first.path;
		expect(events.map(({ did }) => did)).toEqual([
			'Demand: Tap complained of, opened as the customer does',
			'Tap temperature',
			expect.stringMatching(/^Judged: 1 of/)
		]);
		expect(events[1]!.readings).toEqual([expect.objectContaining({ name: 'Tap temperature', unit: 'degC' })]);
		for (const { event } of first.result.sheet.lines) expect(event === null || events[event] !== undefined).toBe(true);
		expect(first.result.sheet.lines.some(({ event }) => event !== null)).toBe(true);
		expect(second).toMatchObject({ result: { kind: 'untried' }, path: null, marks: { got: 0, outOf: 100 } });
		expect(page.history).toMatchObject({ agrees: true, lines: [{ did: { kind: 'marked' }, by: null }] });
		expect(page.rules).toEqual([firstPack().rules.name]);
	});

	it('is nobody’s but those who keep its cohort, nor found under another cohort or paper', async () => {
		const [one, other] = [scene(), scene()];
		const id = sit(one.db, one);
		await one.marking.mark(id);
		const elsewhere = layPaper(one.db);
		const at = { ...one.at, sitting: id };
		expect(one.sheets.page(one.colleague, at)).not.toBeNull();
		expect(one.sheets.page(elsewhere.assessor, at)).toBeNull();
		expect(one.sheets.page(one.assessor, { ...at, paper: elsewhere.paper })).toBeNull();
		expect(one.sheets.page(elsewhere.assessor, { cohort: elsewhere.cohort, paper: elsewhere.paper, sitting: id })).toBeNull();
		expect(one.sheets.page(other.assessor, at)).toBeNull();
		expect(one.sheets.file(elsewhere.assessor, one.at, 'results')).toBeNull();
		expect(await one.sheets.replay(elsewhere.assessor, at, 0, null)).toBeNull();
		expect(await one.sheets.again(elsewhere.assessor, at)).toBeNull();
	});

	it('marked again is the same to the last digit, and says which item is not where an action was changed beneath it', async () => {
		const one = scene();
		const id = sit(one.db, one, { written: '3' });
		await one.marking.mark(id);
		const at = { ...one.at, sitting: id };
		expect(await one.sheets.again(one.assessor, at)).toEqual({ outcome: 'same' });
		const { attempt } = one.db.$client.prepare('select attempt from sitting_item where sitting = ? and slot = 0').get(id) as {
			attempt: string;
		};
		const content = JSON.stringify({ kind: 'judge', still: ['pump-seized'] } satisfies Action);
		one.db.update(action).set({ content }).where(eq(action.seq, 2)).run();
		expect(attempt).toBeTruthy();
		expect(await one.sheets.again(one.assessor, at)).toEqual({ outcome: 'other', slots: [0] });
	});

	it('says that the trail tells of other marks where a stored mark was changed in the file', async () => {
		const one = scene();
		const id = sit(one.db, one);
		await one.marking.mark(id);
		one.db.update(itemMark).set({ got: 99 }).where(eq(itemMark.slot, 1)).run();
		expect(one.sheets.page(one.assessor, { ...one.at, sitting: id })!.history.agrees).toBe(false);
	});
});

describe('replay', () => {
	it('shows the job sheet as it stood after each action, and what was believed then', async () => {
		const one = scene();
		const id = sit(one.db, one);
		await one.marking.mark(id);
		const after = async (wanted: number | null) => {
			const page = await one.sheets.replay(one.assessor, { ...one.at, sitting: id }, 0, wanted);
			if (page?.replayed.kind !== 'callout') throw new Error('no callout');
			return page.replayed;
		};
		const steps = [await after(0), await after(1), await after(2), await after(null)];
		expect(steps.map(({ at, of }) => [at, of])).toEqual([
			[0, 3],
			[1, 3],
			[2, 3],
			[3, 3]
		]);
		expect(steps.map(({ view }) => view.events.length)).toEqual([0, 1, 2, 3]);
		expect(steps[0]!.view.readings).toEqual([]);
		expect(steps[2]!.view.readings.at(-1)).toMatchObject({ check: 'measure-tap-temperature' });
		expect(steps[2]!.view.minutes).toBeGreaterThan(steps[1]!.view.minutes);
		for (const { suspected } of steps) {
			expect(suspected!.filter(({ isFault }) => isFault).length).toBe(1);
			expect(suspected!.map(({ chance }) => chance)).toEqual(suspected!.map(({ chance }) => chance).toSorted((a, b) => b - a));
		}
		expect(steps[2]!.suspected).not.toEqual(steps[0]!.suspected);
		expect(await after(4)).toMatchObject({ at: 3 });
	});

	it('of a drill shows question, answer given and right answer; of what was not done that nothing was', async () => {
		const one = scene();
		const id = sit(one.db, one, { written: '999999' });
		await one.marking.mark(id);
		const at = { ...one.at, sitting: id };
		expect((await one.sheets.replay(one.assessor, at, 2, null))!.replayed).toMatchObject({
			kind: 'drill',
			question: { drill: sum.drill },
			said: ['999999'],
			judged: { right: false, answer: [rightAnswer()] }
		});
		expect((await one.sheets.replay(one.assessor, at, 1, null))!.replayed).toEqual({ kind: 'untried' });
		expect(await one.sheets.replay(one.assessor, at, 3, null)).toBeNull();
	});
});

describe('files', () => {
	it('give a row a sitting and a row a line, safe against formulas, and tell the trail', async () => {
		const one = scene();
		const id = sit(one.db, one, { name: '=HYPERLINK("x")', written: '3' });
		await one.marking.mark(id);
		const results = one.sheets.file(one.assessor, one.at, 'results')!.split('\r\n');
		expect(results.length).toBe(3);
		expect(results[0]).toMatch(/^\uFEFFname,reference,variant,attempt,began,ended,ended by,safety,safety out of,/);
		expect(results[1]).toMatch(/^"'=HYPERLINK\(""x""\)",,1,1,/);
		expect(results[1]).toMatch(/,marked,,/);
		const of = 'paper,cohort,mode,pass rule,rules in force,member id,changed by moderation,second marked';
		expect(results[0]!.endsWith(`,locked,${of}`)).toBe(true);
		expect(results[1]).toMatch(
			/,"Hot water, first paper",Tuesday group,formal,"60.% of all marks, no dangerous act",United Kingdom,[\w-]+,no,no$/
		);
		const lines = one.sheets.file(one.assessor, one.at, 'lines')!.trimEnd().split('\r\n');
		expect(lines[0]!.endsWith(`,seed,${of}`)).toBe(true);
		for (const line of lines.slice(1)) expect(line).toMatch(/,Tuesday group,formal,.*,no,no$/);
		const [first] = stored(one.db, id);
		const bill = first?.kind === 'callout' ? first.sheet.lines.length : 0;
		expect(lines.length).toBe(1 + bill + 1 + 1);
		expect(one.sheets.file(one.assessor, one.at, 'faults')).toBeNull();
		expect(one.sheets.fileName(one.assessor, one.at, 'results')).toBe('provewell-hot-water-first-paper-results.csv');
		expect(one.sheets.fileName('nobody', one.at, 'results')).toBeNull();
		one.db.update(paper).set({ title: '„Käse“/../"\r\n; x' }).run();
		expect(one.sheets.fileName(one.assessor, one.at, 'lines')).toBe('provewell-kase-x-lines.csv');
		one.db.update(paper).set({ title: '水' }).run();
		expect(one.sheets.fileName(one.assessor, one.at, 'lines')).toBe('provewell-lines.csv');
		expect(auditOf(one.db, one.paper).map(({ kind, by, content }) => [kind, by, JSON.parse(content)])).toEqual([
			['exported', one.assessor, { file: 'results', rows: 1 }],
			['exported', one.assessor, { file: 'lines', rows: bill + 2 }]
		]);
	});
});

describe('the learner’s own result', () => {
	it('is told once the window of a formal paper has ended, and not before', async () => {
		const now = Date.now();
		const one = scene({ closes: now + hourMs });
		const id = sit(one.db, one);
		await one.marking.mark(id);
		expect(sheetOf(one.db, id)).not.toBeNull();
		expect(one.shown(id, now + hourMs - 1)).toMatchObject({ outcome: 'closed', isStuck: false, toldAt: expect.any(String) });
		const told = one.shown(id, now + hourMs);
		expect(told).toMatchObject({ outcome: 'told', isLocked: false, items: [{ slot: 0 }, { slot: 1 }, { slot: 2 }] });
	});

	it('is told when a sitting of a practice paper ends', async () => {
		const one = scene({ mode: 'practice', closes: Date.now() + hourMs });
		const id = sit(one.db, one);
		await one.marking.mark(id);
		expect(one.shown(id).outcome).toBe('told');
		const deadline = new Date(Date.now() + hourMs);
		one.db.update(sitting).set({ ended: null, deadline }).where(eq(sitting.id, id)).run();
		expect(one.shown(id).outcome).toBe('elsewhere');
	});
});
