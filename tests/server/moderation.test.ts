import { and, eq } from 'drizzle-orm';
import { describe, expect, it } from 'vitest';
import { auditOf, verifyAudit } from '$lib/server/audit/audit.ts';
import type { Database } from '$lib/server/database/open.ts';
import { auditReason, cohort, markChange, outbox, paper, secondMarking, sitting } from '$lib/server/database/schema.ts';
import { sheetOf } from '$lib/server/sheets/sheet.ts';
import { hourMs } from '../papers.ts';
import { rightAnswer, sit } from '../sat.ts';
import { marked } from './mark-scene.ts';

const reason = 'The note on the sheet shows it';
const change = (more: object = {}) => ({ slot: '0', criterion: 'parts', seen: '0', mark: '12', reason, ...more });
const kinds = (db: Database, id: string) => auditOf(db, id).map(({ kind }) => kind);
const conflict = (says: RegExp) => ({ outcome: 'refused', says: expect.stringMatching(says), isConflict: true });
const refused = (says: RegExp) => expect.objectContaining({ outcome: 'refused', says: expect.stringMatching(says) });

describe('a changed mark', () => {
	it('stands with its reason, before and after, in the sums and the result, and what was worked out stays', async () => {
		const one = await marked({ written: rightAnswer() });
		const before = sheetOf(one.db, one.id)!;
		expect(one.sheets.change(one.assessor, one.at, change({ mark: '12,5' }))).toEqual({ outcome: 'done' });
		const after = sheetOf(one.db, one.id)!;
		expect(after.results).toEqual(before.results);
		expect(after.marks[0]!.byCriterion!.parts).toEqual({ got: 12.5, outOf: 30 });
		expect(after.marks[0]!.got).toBe(before.marks[0]!.got + 12.5);
		expect(after.outcome.got).toBe(before.outcome.got + 12.5);
		expect(after.state).toBe('changed');
		expect(one.db.select().from(markChange).all()).toMatchObject([
			{ slot: 0, criterion: 'parts', before: 0, after: 12.5, reason, by: one.assessor }
		]);
		const [entry] = auditOf(one.db, one.id).slice(1);
		expect(entry).toMatchObject({ kind: 'mark-changed', by: one.assessor, cohort: one.cohort });
		expect(JSON.parse(entry!.content)).toMatchObject({ slot: 0, criterion: 'parts', before: 0, after: 12.5 });
		const told = { outcome: 'told', isLocked: false, result: { got: after.outcome.got } };
		expect(one.shown(one.id)).toMatchObject({
			...told,
			items: [{ marks: { got: after.marks[0]!.got, outOf: 100 }, reasons: [reason] }, { reasons: [] }, { reasons: [] }]
		});
		expect(one.sheets.page(one.assessor, one.at)!.history).toMatchObject({
			agrees: true,
			lines: [{}, { did: { kind: 'changed' }, why: reason }]
		});
		expect(one.sheets.file(one.assessor, one.at, 'lines')).toContain(`Changed from 0 to 12.5: ${reason}`);
	});

	it('of one already changed is changed from what it is, and the latest holds', async () => {
		const one = await marked();
		one.sheets.change(one.assessor, one.at, change());
		const [{ id: seen } = { id: 0 }] = one.db.select().from(markChange).all();
		expect(one.sheets.change(one.colleague, one.at, change({ mark: '20', seen: `${seen}` }))).toEqual({ outcome: 'done' });
		expect(
			one.db
				.select()
				.from(markChange)
				.all()
				.map(({ before, after }) => [before, after])
		).toEqual([
			[0, 12],
			[12, 20]
		]);
		expect(sheetOf(one.db, one.id)!.marks[0]!.byCriterion!.parts.got).toBe(20);
	});

	it('of a drill, answered or not, is out of ten', async () => {
		const one = await marked();
		expect(one.sheets.change(one.assessor, one.at, change({ slot: '2', criterion: '', mark: '10.1' }))).toEqual(refused(/out of 10/));
		expect(one.sheets.change(one.assessor, one.at, change({ slot: '2', criterion: '', mark: '6' }))).toEqual({ outcome: 'done' });
		expect(sheetOf(one.db, one.id)!.marks[2]).toEqual({ slot: 2, got: 6, outOf: 10, byCriterion: null });
	});

	it('can turn a paper from not passed to passed, but takes no gate away', async () => {
		const one = await marked({}, { passRule: { mark: 10, noDanger: true, cured: 0 } });
		const short = sheetOf(one.db, one.id)!.outcome;
		one.sheets.change(one.assessor, one.at, change({ mark: '30' }));
		const long = sheetOf(one.db, one.id)!.outcome;
		expect(long.percent).toBeGreaterThan(short.percent);
		one.db
			.update(paper)
			.set({ passRule: JSON.stringify({ mark: 10, noDanger: true, cured: 1 }) })
			.run();
		expect(sheetOf(one.db, one.id)!.outcome).toMatchObject({
			passed: false,
			because: ['0 callouts ended cured without a guess, of 1 needed.']
		});
	});

	it.each([
		['beyond its out-of', change({ mark: '30.1' }), /out of 30/],
		['below nothing', change({ mark: '-1' }), /number with at most one decimal/],
		['finer than a tenth', change({ mark: '12.55' }), /number with at most one decimal/],
		['in words', change({ mark: 'twelve' }), /number with at most one decimal/],
		['without a mark', change({ mark: '' }), /number with at most one decimal/],
		['to what it is', change({ mark: '0' }), /is 0 already/],
		['without a reason', change({ reason: '  ' }), /at least 3 words/],
		['for a reason of two words', change({ reason: 'looked again' }), /at least 3 words/],
		['for a reason of signs', change({ reason: '- - - !' }), /at least 3 words/],
		['for a reason that turns its words round', change({ reason: 'The note \u202E shows it' }), /cannot be read/],
		['for a reason with what cannot be seen', change({ reason: 'The note sh\u200Bows it' }), /cannot be read/],
		['for a reason with a NUL', change({ reason: 'The note shows\u0000 it' }), /cannot be read/],
		['for a reason without end', change({ reason: 'word '.repeat(300) }), /at most 1000/],
		['of a criterion that is none', change({ criterion: 'style' }), /no such mark/],
		['of a criterion by the name of a property', change({ criterion: 'constructor' }), /no such mark/],
		['of a callout as a whole', change({ criterion: '' }), /no such mark/],
		['of a criterion of a drill', change({ slot: '2' }), /no such mark/],
		['of a callout that was never begun', change({ slot: '1' }), /no such mark/],
		['of an item that there is not', change({ slot: '7' }), /no such mark/]
	])('is not taken %s, and then nothing is stored and nothing told', async (_, wanted, says) => {
		const one = await marked();
		expect(one.sheets.change(one.assessor, one.at, wanted)).toEqual(refused(says));
		expect(one.db.select().from(markChange).all()).toEqual([]);
		expect(kinds(one.db, one.id)).toEqual(['sitting-marked']);
	});

	it('is not taken from a form that knew of another mark, nor of what is no form', async () => {
		const one = await marked();
		one.sheets.change(one.colleague, one.at, change());
		expect(one.sheets.change(one.assessor, one.at, change({ mark: '3' }))).toEqual(conflict(/changed meanwhile: it is 12 now/));
		expect(one.sheets.change(one.assessor, one.at, {})).toMatchObject({ outcome: 'refused' });
		expect(one.db.select().from(markChange).all().length).toBe(1);
	});

	it('leaves neither the change nor the trail where the storing fails half way', async () => {
		const one = await marked();
		one.db.$client.exec("create trigger full before insert on audit_entry begin select raise(abort, 'the disk is full'); end");
		expect(() => one.sheets.change(one.assessor, one.at, change())).toThrow(/disk is full/);
		expect(() => one.sheets.lock(one.assessor, one.at, false)).toThrow(/disk is full/);
		expect(one.db.select().from(markChange).all()).toEqual([]);
		expect(sheetOf(one.db, one.id)!.state).toBe('marked');
		expect(one.db.select().from(outbox).all()).toEqual([]);
	});
});

describe('a second marker', () => {
	const agrees = { agrees: 'yes', note: 'Went through every line of it' };

	it('is another than who changed a mark, and says with a note whether they agree', async () => {
		const one = await marked();
		one.sheets.change(one.assessor, one.at, change());
		expect(one.sheets.second(one.assessor, one.at, agrees)).toEqual(conflict(/somebody else/));
		expect(one.sheets.second(one.colleague, one.at, { ...agrees, note: 'fine' })).toEqual(refused(/at least 3 words/));
		expect(one.sheets.second(one.colleague, one.at, { ...agrees, note: 'Went \u2066through it all' })).toEqual(refused(/cannot be read/));
		expect(one.sheets.second(one.colleague, one.at, { ...agrees, agrees: 'maybe' })).toEqual(refused(/whether you agree/));
		expect(one.db.select().from(secondMarking).all()).toEqual([]);
		expect(one.sheets.second(one.colleague, one.at, { ...agrees, agrees: 'no' })).toEqual({ outcome: 'done' });
		expect(sheetOf(one.db, one.id)).toMatchObject({ state: 'disputed', wantsSecond: true });
		expect(one.sheets.second(one.colleague, one.at, agrees)).toEqual({ outcome: 'done' });
		expect(sheetOf(one.db, one.id)).toMatchObject({ state: 'agreed', wantsSecond: false });
		expect(kinds(one.db, one.id)).toEqual(['sitting-marked', 'mark-changed', 'second-marked', 'second-marked']);
	});

	it('who agreed has agreed to those marks alone: a change afterwards wants another look, also within one tick of the clock', async () => {
		const one = await marked();
		const now = Date.now();
		one.sheets.change(one.assessor, one.at, change(), now);
		one.sheets.second(one.colleague, one.at, agrees, now);
		expect(sheetOf(one.db, one.id)!.wantsSecond).toBe(false);
		const seen = `${one.db.select().from(markChange).get()!.id}`;
		one.sheets.change(one.assessor, one.at, change({ mark: '13', seen }), now + 1);
		expect(sheetOf(one.db, one.id)).toMatchObject({ state: 'changed', wantsSecond: true });
	});

	it.each([
		['within one tick of the clock', 0],
		['with the clock set back meanwhile', -3000]
	])('has not agreed to a mark that was changed afterwards %s', async (_, drift) => {
		const one = await marked();
		const now = Date.now();
		one.sheets.change(one.assessor, one.at, change(), now);
		one.sheets.second(one.colleague, one.at, agrees, now + 5000);
		expect(sheetOf(one.db, one.id)!.state).toBe('agreed');
		const seen = `${one.db.select().from(markChange).get()!.id}`;
		one.sheets.change(one.assessor, one.at, change({ mark: '30', seen }), now + 5000 + drift);
		expect(sheetOf(one.db, one.id)).toMatchObject({ state: 'changed', wantsSecond: true });
		expect(one.sheets.lock(one.assessor, one.at, false)).toEqual(refused(/no second marker has agreed/));
	});

	it('has agreed to what was changed before, also where the clock was set back in between', async () => {
		const one = await marked();
		const now = Date.now();
		one.sheets.change(one.assessor, one.at, change(), now);
		one.sheets.second(one.colleague, one.at, agrees, now - 3000);
		expect(sheetOf(one.db, one.id)).toMatchObject({ state: 'agreed', wantsSecond: false });
		one.db.update(secondMarking).set({ lastChange: null }).run();
		expect(one.sheets.page(one.assessor, one.at)!.history.agrees).toBe(false);
	});

	it('may look at marks that nobody changed', async () => {
		const one = await marked();
		expect(one.sheets.second(one.assessor, one.at, agrees)).toEqual({ outcome: 'done' });
		expect(sheetOf(one.db, one.id)!.state).toBe('agreed');
	});
});

describe('a lock', () => {
	it('refuses every change after it, is told to the trail with the marks, and sends one statement on its way', async () => {
		const one = await marked();
		expect(one.sheets.lock(one.assessor, one.at, false)).toEqual({ outcome: 'done' });
		expect(sheetOf(one.db, one.id)!.state).toBe('locked');
		expect(one.shown(one.id)).toMatchObject({ outcome: 'told', isLocked: true });
		expect(one.sheets.change(one.assessor, one.at, change())).toEqual(conflict(/locked/));
		expect(one.sheets.second(one.colleague, one.at, { agrees: 'yes', note: 'all of it looked at' })).toEqual(conflict(/locked/));
		expect(one.sheets.lock(one.colleague, one.at, true)).toEqual(conflict(/locked already/));
		const { got, outOf, percent, passed } = sheetOf(one.db, one.id)!.outcome;
		const locked = auditOf(one.db, one.id).filter(({ kind }) => kind === 'sheet-locked');
		expect(locked.map(({ content }) => JSON.parse(content))).toEqual([{ got, outOf, percent, passed, withoutSecond: false }]);
		expect(
			one.db
				.select()
				.from(outbox)
				.all()
				.map(({ sitting: of }) => of)
		).toEqual([one.id]);
	});

	const because = 'The colleague misread the note';

	it('over a change that nobody seconded takes a reason, which stands in the history, and the state says so', async () => {
		const one = await marked();
		one.sheets.change(one.assessor, one.at, change());
		for (const why of [undefined, '', 'because', true])
			expect(one.sheets.lock(one.assessor, one.at, why)).toEqual(refused(/no second marker has agreed.* at least 3 words/));
		expect(one.sheets.lock(one.assessor, one.at, because)).toEqual({ outcome: 'done' });
		expect(sheetOf(one.db, one.id)).toMatchObject({ state: 'locked', lockedOver: 'not-seconded' });
		const page = one.sheets.page(one.assessor, one.at)!;
		expect(page.history).toMatchObject({ agrees: true });
		expect(page.history.lines.at(-1)).toMatchObject({ did: { kind: 'locked' }, why: because });
		expect(one.sheets.file(one.assessor, one.at, 'results')).toContain(',"locked, not seconded",');
		const entry = auditOf(one.db, one.id).at(-1)!;
		expect(JSON.parse(entry.content)).toMatchObject({ withoutSecond: true, reason: expect.stringMatching(/^[0-9a-f]{64}$/) });
		one.db.update(auditReason).set({ text: 'Another reason put there' }).run();
		expect(one.sheets.page(one.assessor, one.at)!.history.agrees).toBe(false);
	});

	it.each([
		['where a mark was changed', true],
		['where none was', false]
	])('over a second marker who does not agree takes a reason, %s', async (_, hasChange) => {
		const one = await marked();
		if (hasChange) one.sheets.change(one.assessor, one.at, change());
		one.sheets.second(one.colleague, one.at, { agrees: 'no', note: 'The part was sound' });
		expect(one.sheets.lock(one.assessor, one.at, '')).toEqual(refused(/second marker does not agree/));
		expect(one.sheets.lockAll(one.assessor, one.at)).toMatchObject({ locked: 0, left: 1 });
		expect(one.sheets.lock(one.assessor, one.at, because)).toEqual({ outcome: 'done' });
		expect(sheetOf(one.db, one.id)).toMatchObject({ state: 'locked', lockedOver: 'second-marker' });
		expect(one.sheets.file(one.assessor, one.at, 'results')).toContain(',locked over the second marker,');
	});

	it('to which a second marker agreed takes no reason, and is locked over nothing', async () => {
		const one = await marked();
		one.sheets.change(one.assessor, one.at, change());
		one.sheets.second(one.colleague, one.at, { agrees: 'yes', note: 'all of it looked at' });
		expect(one.sheets.lock(one.assessor, one.at, null)).toEqual({ outcome: 'done' });
		expect(sheetOf(one.db, one.id)).toMatchObject({ state: 'locked', lockedOver: null });
	});

	it('is opened for a reason, which stands on the sheet; in the trail, which outlives names, stands its digest', async () => {
		const one = await marked();
		expect(one.sheets.unlock(one.assessor, one.at, 'for no reason')).toEqual(conflict(/not locked/));
		one.sheets.lock(one.assessor, one.at, false);
		expect(one.sheets.unlock(one.assessor, one.at, 'because')).toEqual(refused(/at least 3 words/));
		expect(one.sheets.unlock(one.assessor, one.at, null)).toEqual(refused(/at least 3 words/));
		expect(one.sheets.unlock(one.assessor, one.at, 'An appeal was upheld')).toEqual({ outcome: 'done' });
		expect(one.shown(one.id)).toMatchObject({ outcome: 'told', isLocked: false });
		expect(JSON.stringify(auditOf(one.db, one.id))).not.toContain('appeal');
		expect(sheetOf(one.db, one.id)!.state).toBe('marked');
		expect(one.sheets.page(one.assessor, one.at)!.history.lines.at(-1)).toMatchObject({
			did: { kind: 'unlocked' },
			why: 'An appeal was upheld'
		});
		expect(one.sheets.page(one.assessor, one.at)!.history.agrees).toBe(true);
		expect(one.sheets.change(one.assessor, one.at, change())).toEqual({ outcome: 'done' });
	});

	it('waits until the window of a formal paper has ended', async () => {
		const now = Date.now();
		const one = await marked({}, { closes: now + hourMs });
		expect(one.sheets.lock(one.assessor, one.at, true, now)).toEqual(conflict(/window of this formal paper is still open/));
		expect(one.sheets.lockAll(one.assessor, one.at, now)).toEqual({ outcome: 'done', locked: 0, left: 1 });
		expect(one.sheets.lock(one.assessor, one.at, true, now + hourMs)).toEqual({ outcome: 'done' });
	});

	it('of all that are ready leaves those open that want a second marker', async () => {
		const one = await marked();
		const [second, running] = [sit(one.db, one), sit(one.db, one, { row: { ended: null, endedBy: null } })];
		await one.marking.mark(second);
		one.sheets.change(one.assessor, one.at, change());
		expect(one.sheets.lockAll(one.assessor, one.at)).toEqual({ outcome: 'done', locked: 1, left: 1 });
		expect([one.id, second].map((id) => sheetOf(one.db, id)!.state)).toEqual(['changed', 'locked']);
		expect(one.db.select().from(sitting).where(eq(sitting.id, running)).get()!.locked).toBeNull();
		const list = one.sheets.list(one.assessor, one.at)!;
		expect(list.unmarked).toMatchObject([{ id: running, isRunning: true }]);
		expect(list.sheets.map(({ isReady }) => isReady)).toEqual([false, false]);
	});
});

it('is for nobody but the assessors of the cohort, and of an invented cohort for nobody', async () => {
	const one = await marked();
	const acts = (who: string) => [
		one.sheets.change(who, one.at, change()),
		one.sheets.second(who, one.at, { agrees: 'yes', note: 'all of it looked at' }),
		one.sheets.lock(who, one.at, true),
		one.sheets.lockAll(who, one.at),
		one.sheets.unlock(who, one.at, 'An appeal was upheld')
	];
	const learner = one.db.select({ id: sitting.member }).from(sitting).get()!.id;
	for (const who of ['nobody', learner]) expect(acts(who)).toEqual(Array(5).fill({ outcome: 'missing' }));
	one.db.update(cohort).set({ invented: true }).where(eq(cohort.id, one.cohort)).run();
	for (const who of [one.assessor, one.colleague, 'any assessor']) expect(acts(who)).toEqual(Array(5).fill(conflict(/invented/)));
	expect(kinds(one.db, one.id)).toEqual(['sitting-marked']);
	expect(one.sheets.page('any assessor', one.at)!.may).toMatchObject({ change: false, second: false, isInvented: true });
});

it('goes on in a cohort that was archived after its paper was sat', async () => {
	const one = await marked();
	one.db.update(cohort).set({ archived: new Date() }).where(eq(cohort.id, one.cohort)).run();
	expect(one.sheets.change(one.assessor, one.at, change())).toEqual({ outcome: 'done' });
	expect(one.sheets.lock(one.assessor, one.at, 'Nobody else is to be had')).toEqual({ outcome: 'done' });
});

it('leaves a whole trail whatever was done', async () => {
	const one = await marked();
	one.sheets.change(one.assessor, one.at, change());
	one.sheets.second(one.colleague, one.at, { agrees: 'yes', note: 'all of it looked at' });
	one.sheets.lock(one.assessor, one.at, false);
	one.sheets.unlock(one.assessor, one.at, 'An appeal was upheld');
	one.sheets.file(one.assessor, one.at, 'results');
	expect(verifyAudit(one.db)).toMatchObject({ outcome: 'whole', rows: 6 });
	expect(one.sheets.page(one.assessor, one.at)!.history.agrees).toBe(true);
	one.db
		.update(markChange)
		.set({ reason: 'Another reason put there' })
		.where(and(eq(markChange.slot, 0)))
		.run();
	expect(one.sheets.page(one.assessor, one.at)!.history.agrees).toBe(false);
	one.db.update(markChange).set({ reason }).run();
	expect(one.sheets.page(one.assessor, one.at)!.history.agrees).toBe(true);
	one.db.update(auditReason).set({ text: 'Another reason put there' }).run();
	expect(one.sheets.page(one.assessor, one.at)!.history.agrees).toBe(false);
});
