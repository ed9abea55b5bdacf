/** Papers made, drawn, changed, set, extended and copied, on a real file. What takes long to weigh is made up here, but for one test. */
import { eq } from 'drizzle-orm';
import { describe, expect, test } from 'vitest';
import { auditOf, verifyAudit } from '$lib/server/audit/audit.ts';
import { openDatabase, type Database } from '$lib/server/database/open.ts';
import { auditEntry, cohort as cohorts, estimate, member, pack, paper, sitting, variantItem } from '$lib/server/database/schema.ts';
import { digestOf } from '$lib/server/digest.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { curriculum } from '$lib/server/packs/curriculum.ts';
import { packs } from '$lib/server/packs/packs.ts';
import type { DrawSources } from '$lib/server/papers/draw-variants.ts';
import { itemsOf, passRuleOf, paperById, variantsOf } from '$lib/server/papers/kept-paper.ts';
import { papersIn, type Papers } from '$lib/server/papers/papers.ts';
import { paperWeigher } from '$lib/server/weighing/weigher.ts';
import type { PaperFields } from '$lib/papers/fields.ts';
import { chance } from '#shared/quantity/random.ts';
import type { CalloutItem, DrillItem } from '#shared/assessment/variant.ts';
import { equalVariants } from '#shared/assessment/variants.ts';
import { addAccount, makeCohort } from '../papers.ts';
import { freshFolder, freshService } from './fresh.ts';

const zone = 'Europe/London';
const now = Date.parse('2026-03-24T10:00:00Z');
const dayMs = 86_400_000;

/** Candidates and drills without weighing any evidence: figures by chance. */
const quick: Pick<DrawSources, 'tableOf' | 'weigh'> = {
	tableOf: async () => ({}) as never,
	weigh: async (of, _table, kind, wanted) => {
		if ('candidates' in wanted) return equalVariants(wanted.candidates, wanted.count, wanted.seed) as never;
		const stream = chance(wanted.seed, kind, wanted.slot.slot);
		const items = Array.from({ length: wanted.count }, (): CalloutItem | DrillItem => {
			const seed = stream.whole(0, 1_000_000);
			if (wanted.slot.kind === 'drill')
				return { kind: 'drill', drill: wanted.slot.drill, generator: 'pressurePerHeight', family: null, seed, packHash: null };
			const area = wanted.slot.area;
			const fault = stream.pick(of.faults.filter((one) => area === null || one.area === area));
			const minutes = stream.whole(40, 120);
			const difficulty = { minutes, spent: 0, cost: minutes, bits: stream.between(2, 4), checks: 5 };
			return {
				kind: 'callout',
				family: of.family.id,
				area: fault.area,
				fault: fault.id,
				complaint: 'cold',
				seed,
				packHash: of.hash,
				difficulty
			};
		});
		return items as never;
	}
};

interface Scene {
	readonly db: Database;
	readonly service: Papers;
	readonly assessor: string;
	readonly cohort: string;
	readonly at: { readonly assessor: string; readonly cohort: string };
}

function scene(sources = quick): Scene {
	const { db } = freshService();
	const assessor = addAccount(db, 'Ada Fenn', 'assessor');
	const cohort = makeCohort(db, { assessor });
	return { db, service: papersIn(db, packs(), curriculum(), sources), assessor, cohort, at: { assessor, cohort } };
}

const blank = ({ service, at }: Scene): PaperFields => service.blank(at, zone, now)!.fields;

async function made(scene: Scene, changed: PaperFields = {}): Promise<string> {
	const came = scene.service.make(scene.at, { fields: { ...blank(scene), ...changed }, zone }, now);
	if (came.outcome !== 'made') throw new Error(JSON.stringify(came));
	await scene.service.drawer.settled();
	return came.id;
}

const kindsOf = (db: Database, subject: string) => auditOf(db, subject).map(({ kind }) => kind);

describe('a paper is made', () => {
	test('from the form as it comes: the title filled in, minutes from the blueprint, a week’s window, variants by the blueprint', async () => {
		const one = scene();
		const fields = blank(one);
		expect(fields).toMatchObject({ title: 'Paper 1', opens: '2026-03-24T10:00', closes: '2026-03-31T10:00', variantCount: '3' });
		const id = await made(one);
		const row = paperById(one.db, id)!;
		expect(row).toMatchObject({ title: 'Paper 1', mode: 'formal', attempts: 1, variantCount: 3, set: null, createdBy: one.assessor });
		// The clocks go forward on 29 March: a week by the clock is an hour less.
		expect(row.closes!.getTime() - row.opens!.getTime()).toBe(7 * dayMs - 3_600_000);
		const { minutesOf } = one.service.stock();
		const sum = Object.entries(minutesOf).reduce((all, [name, each]) => all + each * Number(fields[name] ?? 0), 0);
		expect(row.minutes).toBe(Math.ceil(sum / 5) * 5);
		const variants = variantsOf(one.db, id);
		expect(variants.map(({ number }) => number)).toEqual([1, 2, 3]);
		const callouts = Object.keys(fields).filter((name) => name.startsWith('callout/'));
		for (const { items } of variants) {
			expect(items).toHaveLength(7);
			const byFamily = (name: string) => items.filter((item) => item.kind === 'callout' && `callout/${item.family}/any` === name).length;
			for (const name of callouts) expect(byFamily(name)).toBe(Number(fields[name]));
		}
		expect(kindsOf(one.db, id)).toEqual(['paper-made', 'variants-made']);
		expect(verifyAudit(one.db).outcome).toBe('whole');
		// What it was drawn from is kept, so that it can be played after the data have changed.
		const hashes = new Set(
			one.db
				.select()
				.from(pack)
				.all()
				.map(({ hash }) => hash)
		);
		for (const item of variants[0]!.items) if (item.packHash !== null) expect(hashes).toContain(item.packHash);
	});

	test('and its page says which items share a fault between variants, and where there are too few faults for that', async () => {
		const one = scene();
		const kept = await made(one);
		expect(one.service.page({ ...one.at, paper: kept }, zone, now)!.sharing).toEqual({ items: 0, short: [] });
		const family = [...packs().values()].find(({ faults }) => faults.filter(({ area }) => area === 'flame').length === 1)!.family.id;
		const id = await made(one, { [`callout/${family}/flame`]: '1' });
		const { sharing } = one.service.page({ ...one.at, paper: id }, zone, now)!;
		expect(sharing).toEqual({ items: 3, short: [{ says: expect.stringMatching(/: .*flame/i), faults: 1 }] });
	});

	test('what is written is read back as it was written', async () => {
		const one = scene();
		const { noDanger, ...fields }: PaperFields = {
			...blank(one),
			minutes: '75',
			attempts: '2',
			mode: 'practice',
			passMark: '62.5',
			cured: '1'
		};
		expect(noDanger).toBe('on');
		const came = one.service.make(one.at, { fields, zone }, now);
		if (came.outcome !== 'made') throw new Error(JSON.stringify(came));
		await one.service.drawer.settled();
		expect(passRuleOf(paperById(one.db, came.id)!)).toEqual({ mark: 62.5, noDanger: false, cured: 1 });
		expect(one.service.page({ ...one.at, paper: came.id }, zone, now)!.fields).toEqual(fields);
	});

	test.each<[string, PaperFields, string]>([
		['a title of one letter', { title: 'x' }, 'title'],
		['a title of signs', { title: '--- !' }, 'title'],
		['a title that turns the page round', { title: 'Paper \u202E1' }, 'title'],
		['a title with what cannot be seen', { title: 'Pa\u200Bper' }, 'title'],
		['a title with a NUL', { title: 'Paper\u0000' }, 'title'],
		['a window of 367 days', { closes: '2027-03-26T10:00' }, 'closes'],
		['a window of forty years', { closes: '2062-03-31T10:00' }, 'closes'],
		['no title', { title: '   ' }, 'title'],
		['a mode that is none', { mode: 'exam' }, 'mode'],
		['no time at all', { minutes: '0' }, 'minutes'],
		['a day and more', { minutes: '1500' }, 'minutes'],
		['minutes in words', { minutes: 'ten' }, 'minutes'],
		['more attempts than variants', { attempts: '4' }, 'variantCount'],
		['no variant', { variantCount: '0' }, 'variantCount'],
		['seven variants', { variantCount: '7' }, 'variantCount'],
		['a pass mark above all', { passMark: '100.1' }, 'passMark'],
		['a pass mark below none', { passMark: '-1' }, 'passMark'],
		['more cured than there are', { cured: '4' }, 'cured'],
		['a window that shuts before it opens', { closes: '2026-03-20T10:00' }, 'closes'],
		['no time of the calendar', { opens: '2026-02-30T10:00' }, 'opens'],
		['a family that is not in stock', { 'callout/no-such-family/any': '1' }, 'blueprint'],
		['an area that the family has no fault in', { 'callout/combi-tap-coil/diverting': '1' }, 'blueprint'],
		['a kind of drill that is none', { 'drill/__proto__': '1' }, 'blueprint'],
		['half a callout', { 'drill/reading': '0.5' }, 'blueprint'],
		['twenty-one of a kind', { 'drill/reading': '21' }, 'blueprint'],
		['more items than a paper holds', { 'drill/reading': '20', 'drill/water-sums': '19' }, 'blueprint']
	])('not with %s', (_, changed, field) => {
		const one = scene();
		const came = one.service.make(one.at, { fields: { ...blank(one), ...changed }, zone }, now);
		expect(came).toMatchObject({ outcome: 'unfit', problems: { [field]: expect.stringMatching(/\S/) } });
		expect(one.db.select().from(paper).all()).toEqual([]);
	});

	test('not with nothing in it', () => {
		const one = scene();
		const nothing = Object.fromEntries(Object.keys(one.service.stock().minutesOf).map((name) => [name, '']));
		const came = one.service.make(one.at, { fields: { ...blank(one), ...nothing, cured: '0' }, zone }, now);
		expect(came).toMatchObject({ outcome: 'unfit', problems: { blueprint: 'Ask for at least one callout or drill.' } });
		expect(one.service.make(one.at, { fields: {}, zone }, now)).toMatchObject({
			outcome: 'unfit',
			problems: { title: expect.any(String) }
		});
	});
});

describe('a draft', () => {
	test('has all of it changed; a changed blueprint draws afresh and puts the judges’ estimates away, a changed title does neither', async () => {
		const one = scene();
		const id = await made(one);
		const at = { ...one.at, paper: id };
		const first = itemsOf(one.db, id, 1);
		const { fields } = one.service.page(at, zone, now)!;
		expect(one.service.standard.keepEstimates(at, [{ judge: 'Ines', expected: Array(7).fill('60') }], now).outcome).toBe('kept');
		expect(one.service.change(at, { fields: { ...fields, title: 'Spring' }, zone }).outcome).toBe('changed');
		expect(itemsOf(one.db, id, 1)).toEqual(first);
		expect(one.db.select().from(estimate).all()).toHaveLength(7);
		expect(one.service.change(at, { fields: { ...fields, 'drill/reading': '1' }, zone }).outcome).toBe('changed');
		expect(one.db.select().from(estimate).all()).toEqual([]);
		expect(variantsOf(one.db, id)).toEqual([]);
		expect(one.service.page(at, zone, now)!.drawing.state).toBe('drawing');
		await one.service.drawer.settled();
		expect(itemsOf(one.db, id, 1)).toHaveLength(6);
	});

	test('keeps the second of an hour that comes twice, where its window is left as it was', async () => {
		const one = scene();
		const id = await made(one);
		const at = { ...one.at, paper: id };
		const second = new Date('2026-10-25T01:30:00Z');
		one.db.update(paper).set({ closes: second }).where(eq(paper.id, id)).run();
		const { fields } = one.service.page(at, zone, now)!;
		expect(fields['closes']).toBe('2026-10-25T01:30');
		one.service.change(at, { fields: { ...fields, title: 'Other' }, zone });
		expect(paperById(one.db, id)!.closes).toEqual(second);
	});

	test('is drawn again with other callouts; those of before stand until then', async () => {
		const one = scene();
		const id = await made(one);
		const before = variantsOf(one.db, id);
		expect(one.service.redraw({ ...one.at, paper: id }).outcome).toBe('drawing');
		expect(variantsOf(one.db, id)).toEqual(before);
		await one.service.drawer.settled();
		expect(variantsOf(one.db, id)).toHaveLength(3);
		expect(variantsOf(one.db, id)).not.toEqual(before);
	});

	test('that changed while it was drawn keeps nothing of what it no longer asks for', async () => {
		const one = scene();
		const came = one.service.make(one.at, { fields: blank(one), zone }, now);
		if (came.outcome !== 'made') throw new Error(came.outcome);
		const at = { ...one.at, paper: came.id };
		one.service.change(at, { fields: { ...blank(one), 'drill/reading': '5', variantCount: '2' }, zone });
		await one.service.drawer.settled();
		const variants = variantsOf(one.db, came.id);
		expect(variants).toHaveLength(2);
		for (const { items } of variants) expect(items).toHaveLength(10);
		expect(kindsOf(one.db, came.id).filter((kind) => kind === 'variants-made')).toHaveLength(1);
	});

	test('that a stop of the server left half drawn is drawn by the next, at its start or when it is looked at', async () => {
		const folder = freshFolder();
		const { db } = freshService(folder);
		const assessor = addAccount(db, 'Ada', 'assessor');
		const cohort = makeCohort(db, { assessor });
		const never: typeof quick = { ...quick, weigh: () => new Promise(() => undefined) };
		const stopped = papersIn(db, packs(), curriculum(), never);
		const at = { assessor, cohort };
		const ids = [0, 1].map(() => {
			const came = stopped.make(at, { fields: stopped.blank(at, zone, now)!.fields, zone }, now);
			return came.outcome === 'made' ? came.id : '';
		});
		const again = openDatabase(folder);
		const next = papersIn(again, packs(), curriculum(), quick);
		expect(next.page({ ...at, paper: ids[0]! }, zone, now)!.drawing.state).toBe('drawing');
		next.drawer.drawLeftBehind();
		await next.drawer.settled();
		for (const id of ids) expect(variantsOf(again, id)).toHaveLength(3);
		again.$client.close();
	});

	test('that cannot be drawn says why, and is drawn again when asked', async () => {
		const one = scene();
		let isBroken = true;
		const service = papersIn(one.db, packs(), curriculum(), {
			...quick,
			weigh: async (of, table, kind, wanted) => (isBroken ? ([] as never) : quick.weigh(of, table, kind, wanted))
		});
		const broken = { ...one, service };
		const id = await made(broken);
		const at = { ...one.at, paper: id };
		expect(service.page(at, zone, now)!.drawing).toMatchObject({ state: 'failed', says: expect.stringMatching(/^Too few callouts/) });
		expect(service.set(at, now)).toMatchObject({ outcome: 'refused' });
		isBroken = false;
		service.redraw(at);
		await service.drawer.settled();
		expect(service.page(at, zone, now)!.drawing).toEqual({ state: 'drawn' });
	});

	test('is not set before it is drawn, nor once its window is over', async () => {
		const one = scene();
		const came = one.service.make(one.at, { fields: blank(one), zone }, now);
		const at = { ...one.at, paper: came.outcome === 'made' ? came.id : '' };
		expect(one.service.set(at, now)).toMatchObject({ outcome: 'refused', isConflict: true, says: 'Its variants are not drawn yet.' });
		await one.service.drawer.settled();
		expect(one.service.set(at, now + 8 * dayMs)).toMatchObject({ outcome: 'refused', says: expect.stringMatching(/window is over/) });
		expect(one.service.set(at, now)).toEqual({ outcome: 'set' });
	});
});

describe('a paper that is set', () => {
	async function setOne(changed: PaperFields = {}) {
		const one = scene();
		const id = await made(one, changed);
		const at = { ...one.at, paper: id };
		expect(one.service.set(at, now)).toEqual({ outcome: 'set' });
		return { ...one, id, at };
	}

	test('changes no more: not its form, not its variants, and it is set once', async () => {
		const { db, service, at, id } = await setOne();
		const before = [paperById(db, id), variantsOf(db, id)];
		const { fields } = service.page(at, zone, now)!;
		for (const came of [service.change(at, { fields, zone }), service.redraw(at), service.set(at, now)])
			expect(came).toMatchObject({ outcome: 'refused', says: expect.stringMatching(/^This paper is set/) });
		await service.drawer.settled();
		expect([paperById(db, id), variantsOf(db, id)]).toEqual(before);
		expect(kindsOf(db, id)).toEqual(['paper-made', 'variants-made', 'paper-set']);
	});

	test('has its window made longer with a reason, and whoever sits gets of it what their own minutes allow', async () => {
		const { db, service, at, id, cohort } = await setOne({ minutes: '60' });
		const closes = paperById(db, id)!.closes!.getTime();
		const started = new Date(closes - 30 * 60_000);
		for (const [name, extraPercent, ended] of [
			['a', 0, null],
			['b', 25, null],
			['c', 0, new Date(closes)]
		] as const) {
			db.insert(member)
				.values({ id: name, cohort, name, extraPercent, created: new Date(now) })
				.run();
			db.insert(sitting)
				.values({ id: name, paper: id, member: name, variant: 1, number: 1, started, seen: started, deadline: new Date(closes), ended })
				.run();
		}
		const longer = service.extend(at, { closes: '2026-03-31T10:40', reason: ' The room lost  power. ' }, zone, closes - 60_000);
		expect(longer).toEqual({ outcome: 'extended' });
		const deadlines = db
			.select()
			.from(sitting)
			.all()
			.map(({ id, deadline }) => [id, (deadline.getTime() - closes) / 60_000]);
		expect(Object.fromEntries(deadlines)).toEqual({ a: 30, b: 40, c: 0 });
		const last = auditOf(db, id).at(-1)!;
		expect(last.kind).toBe('window-changed');
		expect(JSON.parse(last.content)).toMatchObject({ reason: digestOf('The room lost power.'), to: '2026-03-31T09:40:00.000Z' });
		expect(JSON.stringify(db.select().from(auditEntry).all())).not.toContain('lost power');
		expect(service.page(at, zone, now)!.moved).toEqual([{ at: new Date(closes - 60_000), reason: 'The room lost power.' }]);
		expect(kindsOf(db, 'a')).toEqual(['deadline-moved']);
		expect(kindsOf(db, 'c')).toEqual([]);
	});

	test('takes no time from anybody when its window is made longer: not from whose extra time was taken back, nor gives it to whose is over', async () => {
		const { db, service, at, id, cohort } = await setOne({ minutes: '60' });
		const closes = paperById(db, id)!.closes!.getTime();
		const begun = closes - 5 * 3_600_000;
		const deadlines = { had: begun + 120 * 60_000, over: begun + 10 * 60_000 };
		for (const [name, deadline] of Object.entries(deadlines)) {
			// Their extra time when they began was more than the register has by now.
			db.insert(member)
				.values({ id: name, cohort, name, extraPercent: 0, created: new Date(now) })
				.run();
			const started = new Date(begun);
			const row = { variant: 1, number: 1, started, seen: started, deadline: new Date(deadline) };
			db.insert(sitting)
				.values({ id: name, paper: id, member: name, ...row })
				.run();
		}
		const came = service.extend(at, { closes: '2026-03-31T12:00', reason: 'A late start.' }, zone, begun + 20 * 60_000);
		expect(came).toEqual({ outcome: 'extended' });
		const after = db.select().from(sitting).all();
		expect(Object.fromEntries(after.map((one) => [one.id, one.deadline.getTime()]))).toEqual(deadlines);
		expect([kindsOf(db, 'had'), kindsOf(db, 'over')]).toEqual([[], []]);
	});

	test('has its window end earlier, with a reason, but not before whoever sits has had their time', async () => {
		const { db, service, at, id, cohort } = await setOne({ minutes: '60', closes: '2027-03-25T10:00' });
		const started = new Date(now);
		const deadline = new Date(now + 60 * 60_000);
		db.insert(member)
			.values({ id: 'a', cohort, name: 'A', created: new Date(now) })
			.run();
		db.insert(sitting).values({ id: 'a', paper: id, member: 'a', variant: 1, number: 1, started, seen: started, deadline }).run();
		const end = (closes: string, at10 = now + 60_000) => service.extend(at, { closes, reason: 'The year was mistyped.' }, zone, at10);
		expect(end('2026-03-24T10:30')).toMatchObject({ outcome: 'refused', says: expect.stringMatching(/has time until 11:00 today/) });
		expect(end('2026-03-24T09:00')).toMatchObject({ outcome: 'refused' });
		expect(end('2026-03-31T10:00')).toEqual({ outcome: 'extended' });
		expect(paperById(db, id)!.closes).toEqual(new Date('2026-03-31T09:00:00Z'));
		expect(db.select().from(sitting).get()!.deadline).toEqual(deadline);
		expect(end('2026-03-24T11:00')).toEqual({ outcome: 'extended' });
		expect(service.page(at, zone, now)!.moved).toHaveLength(2);
		expect(JSON.parse(auditOf(db, id).at(-1)!.content)).toMatchObject({
			from: '2026-03-31T09:00:00.000Z',
			to: '2026-03-24T11:00:00.000Z'
		});
	});

	test.each<[string, { closes: string; reason: unknown }, number, RegExp]>([
		['without a reason', { closes: '2026-04-02T10:00', reason: ' ' }, 0, /^Say why/],
		['with no reason at all', { closes: '2026-04-02T10:00', reason: undefined }, 0, /^Say why/],
		['to before now', { closes: '2025-03-30T10:00', reason: 'Because.' }, 0, /would be over already/],
		['to when it ends already', { closes: '2026-03-31T10:00', reason: 'Because.' }, 0, /closes already/],
		['to 367 days', { closes: '2027-03-26T10:00', reason: 'Because.' }, 0, /at most 366 days/],
		['to a mistyped year', { closes: '2062-03-31T10:00', reason: 'Because.' }, 0, /at most 366 days/],
		['for a reason that turns its words round', { closes: '2026-04-02T10:00', reason: 'Be\u202Ecause.' }, 0, /cannot be read/],
		['to no time', { closes: 'soon', reason: 'Because.' }, 0, /date and a time/],
		['once it is over, which was when all was told', { closes: '2026-04-20T10:00', reason: 'Because.' }, 8, /has been told/]
	])('has its window not changed %s', async (_, said, days, says) => {
		const { db, service, at, id } = await setOne();
		const before = paperById(db, id);
		expect(service.extend(at, said, zone, now + days * dayMs)).toMatchObject({ outcome: 'refused', says: expect.stringMatching(says) });
		expect(paperById(db, id)).toEqual(before);
	});

	test('is copied for another cohort: a draft of the same, with variants of its own', async () => {
		const { db, service, at, id, assessor } = await setOne();
		const other = makeCohort(db, { assessor, name: 'Thursday group' });
		const copied = service.copy(at, other, zone, now + 100 * dayMs);
		if (copied.outcome !== 'made') throw new Error(copied.outcome);
		await service.drawer.settled();
		const [from, to] = [paperById(db, id)!, paperById(db, copied.id)!];
		expect(to).toMatchObject({ cohort: other, blueprint: from.blueprint, passRule: from.passRule, minutes: from.minutes, set: null });
		expect(to.closes!.getTime()).toBeGreaterThan(now + 100 * dayMs);
		expect(variantsOf(db, copied.id)).toHaveLength(3);
		expect(variantsOf(db, copied.id)).not.toEqual(variantsOf(db, id));
		expect(JSON.parse(auditOf(db, copied.id)[0]!.content)).toEqual({ copyOf: id });
	});
});

describe('a standard from judges', () => {
	// The judges and their sums are those of tests/published/standard-setting.test.ts; here four drills, so that every place weighs the same.
	const rows = [
		{ judge: 'Ines', expected: ['60', '70', '50', '80'] },
		{ judge: 'Rob', expected: ['50', '65', '55', '70'] },
		{ judge: 'May', expected: ['70', '75', '45', '85'] },
		{ judge: '', expected: ['', '', '', ''] }
	];
	async function drills() {
		const one = scene();
		const nothing = Object.fromEntries(Object.keys(one.service.stock().minutesOf).map((name) => [name, '']));
		const id = await made(one, { ...nothing, 'drill/water-sums': '4', cured: '0' });
		return { ...one, id, at: { ...one.at, paper: id } };
	}

	test('is kept, comes to its cut with its error, and becomes the pass mark of a draft', async () => {
		const { db, service, at, id } = await drills();
		expect(service.standard.keepEstimates(at, rows, now).outcome).toBe('kept');
		const { standard, judges } = service.standard.page(at)!;
		expect(judges).toEqual(rows.slice(0, 3));
		expect(standard!.percent).toBeCloseTo((100 * 2.583333) / 4, 4);
		expect(standard!.standardErrorPercent).toBeCloseTo((100 * 0.101379) / 4, 4);
		expect(service.standard.takeCut(at, { reason: undefined }, now).outcome).toBe('kept');
		expect(passRuleOf(paperById(db, id)!).mark).toBe(64.6);
		const said = auditOf(db, id)
			.slice(-2)
			.map(({ content }) => content);
		expect(kindsOf(db, id).slice(-2)).toEqual(['standard-set', 'mark-taken']);
		expect(JSON.parse(said[1]!)).toEqual({ before: 60, after: 64.6, judges: 3 });
		for (const content of said) for (const { judge } of rows.slice(0, 3)) expect(content).not.toContain(judge);
		// The form takes back what the standard gave.
		const { fields } = service.page(at, zone, now)!;
		expect(service.change(at, { fields, zone }).outcome).toBe('changed');
		expect(passRuleOf(paperById(db, id)!).mark).toBe(64.6);
	});

	test.each(['\u202EInes', 'In\u200Bes', 'Ines\u0000', '...'])('is not kept of a judge called %j', async (judge) => {
		const { service, at } = await drills();
		expect(service.standard.keepEstimates(at, [{ ...rows[0]!, judge }], now)).toMatchObject({
			says: expect.stringMatching(/name of each judge/)
		});
		expect(service.standard.page(at)!.judges).toEqual([]);
	});

	test('of a paper that is set needs a reason, and changes nothing once a sheet is locked', async () => {
		const { db, service, at, id, cohort } = await drills();
		service.standard.keepEstimates(at, rows, now);
		service.set(at, now);
		expect(service.standard.takeCut(at, { reason: '' }, now)).toMatchObject({
			outcome: 'refused',
			says: expect.stringMatching(/^Say why/)
		});
		expect(passRuleOf(paperById(db, id)!).mark).toBe(60);
		expect(service.standard.takeCut(at, { reason: 'Agreed by the panel.' }, now).outcome).toBe('kept');
		expect(service.standard.page(at)!.history).toMatchObject([{ before: 60, after: 64.6, reason: 'Agreed by the panel.' }]);
		expect(JSON.stringify(auditOf(db, id))).not.toContain('panel');
		db.insert(member)
			.values({ id: 'm', cohort, name: 'm', created: new Date(now) })
			.run();
		const when = new Date(now);
		db.insert(sitting)
			.values({
				id: 's',
				paper: id,
				member: 'm',
				variant: 1,
				number: 1,
				started: when,
				seen: when,
				deadline: when,
				ended: when,
				locked: when
			})
			.run();
		expect(service.standard.takeCut(at, { reason: 'Again.' }, now)).toMatchObject({
			outcome: 'refused',
			says: expect.stringMatching(/locked/)
		});
		expect(service.standard.keepEstimates(at, [], now)).toMatchObject({ outcome: 'refused' });
		expect(service.standard.page(at)!.fixed).toMatch(/locked/);
		expect(db.select().from(estimate).all()).toHaveLength(12);
	});

	test.each<[string, { judge: string; expected: string[] }[]]>([
		['above all', [{ judge: 'Ines', expected: ['60', '101', '50', '80'] }]],
		['below none', [{ judge: 'Ines', expected: ['60', '-1', '50', '80'] }]],
		['in words', [{ judge: 'Ines', expected: ['60', 'most', '50', '80'] }]],
		['for a place too few', [{ judge: 'Ines', expected: ['60', '50', '80'] }]],
		['left out', [{ judge: 'Ines', expected: ['60', '', '50', '80'] }]],
		['of nobody', [{ judge: ' ', expected: ['60', '50', '50', '80'] }]],
		['of one judge twice', [rows[0]!, { ...rows[1]!, judge: 'INES ' }]],
		['of a crowd', Array.from({ length: 21 }, (_, i) => ({ ...rows[0]!, judge: `Judge ${i}` }))]
	])('is not kept with an estimate %s', async (_, wrong) => {
		const { db, service, at } = await drills();
		service.standard.keepEstimates(at, rows, now);
		const before = db.select().from(estimate).all();
		expect(service.standard.keepEstimates(at, wrong, now)).toMatchObject({ outcome: 'refused', says: expect.stringMatching(/\.$/) });
		expect(db.select().from(estimate).all()).toEqual(before);
	});

	test('is none without judges', async () => {
		const { service, at } = await drills();
		expect(service.standard.takeCut(at, { reason: 'x' }, now)).toMatchObject({ outcome: 'refused' });
		expect(service.standard.page(at)).toMatchObject({ standard: null, mark: 60 });
	});
});

describe('nobody reaches', () => {
	const everything = (service: Papers, at: { assessor: string; cohort: string; paper: string }, fields: PaperFields) => [
		service.make(at, { fields, zone }, now),
		service.change(at, { fields, zone }),
		service.redraw(at),
		service.set(at, now),
		service.extend(at, { closes: '2026-05-01T10:00', reason: 'Because.' }, zone, now),
		service.copy(at, at.cohort, zone, now),
		service.standard.keepEstimates(at, [], now),
		service.standard.takeCut(at, { reason: 'Because.' }, now)
	];

	test('a cohort of another assessor, nor a paper by another cohort’s address', async () => {
		const one = scene();
		const id = await made(one);
		const other = addAccount(one.db, 'Bea', 'assessor');
		const theirs = makeCohort(one.db, { assessor: other });
		const fields = blank(one);
		const rows = () => [one.db.select().from(paper).all(), one.db.select().from(variantItem).all()];
		const before = rows();
		const strange = { assessor: other, cohort: one.cohort, paper: id };
		for (const came of everything(one.service, strange, fields)) expect(came).toEqual({ outcome: 'missing' });
		for (const came of everything(one.service, { ...strange, cohort: theirs }, fields).slice(1))
			expect(came).toEqual({ outcome: 'missing' });
		await one.service.drawer.settled();
		for (const at of [strange, { ...strange, cohort: theirs }]) {
			expect(one.service.page(at, zone, now)).toBeNull();
			expect(await one.service.variant(at, 1)).toBeNull();
			expect(one.service.standard.page(at)).toBeNull();
		}
		expect(one.service.blank(strange, zone, now)).toBeNull();
		// The other's own cohort took the paper that was made for it; nothing else changed.
		expect(rows()[0]!.filter((row) => 'cohort' in row && row.cohort === one.cohort)).toEqual(before[0]);
		// Nor can a paper be copied into a cohort that is not one's own.
		expect(one.service.copy({ ...one.at, paper: id }, theirs, zone, now)).toEqual({ outcome: 'missing' });
	});

	test.each([
		['archived', { archived: new Date(now) }],
		['invented', { invented: true }]
	])('into a cohort that is %s: it is looked at, and stays as it is', async (_, state) => {
		const one = scene();
		const id = await made(one);
		const fields = blank(one);
		one.db.update(cohorts).set(state).where(eq(cohorts.id, one.cohort)).run();
		const before = [one.db.select().from(paper).all(), one.db.select().from(variantItem).all()];
		for (const came of everything(one.service, { ...one.at, paper: id }, fields)) expect(came).toMatchObject({ outcome: 'refused' });
		await one.service.drawer.settled();
		expect([one.db.select().from(paper).all(), one.db.select().from(variantItem).all()]).toEqual(before);
		expect(one.service.page({ ...one.at, paper: id }, zone, now)!.fixed).toMatch(/\.$/);
	});
});

test('a variant is drawn by weighing evidence and laid open with its hidden fault, its sound path and the worked answer of its drill', async () => {
	const one = scene({ tableOf: evidenceFor, weigh: (of, table, kind, wanted) => paperWeigher.weigh(of, table, kind, wanted) });
	const [first] = [...packs().values()];
	const nothing = Object.fromEntries(Object.keys(one.service.stock().minutesOf).map((name) => [name, '']));
	const asked = { ...nothing, [`callout/${first!.family.id}/sensing`]: '1', 'drill/ruled-out': '1', variantCount: '2', cured: '0' };
	const id = await made(one, asked);
	const at = { ...one.at, paper: id };
	const { drawing, spread } = one.service.page(at, zone, now)!;
	expect(drawing).toEqual({ state: 'drawn' });
	expect(spread!.totals).toHaveLength(2);
	let page = await one.service.variant(at, 2);
	while (page && page.items === null) page = await one.service.variant(at, 2);
	const [callout, drill] = page!.items!;
	const [hidden] = itemsOf(one.db, id, 2);
	if (callout?.kind !== 'callout' || drill?.kind !== 'drill' || hidden?.kind !== 'callout') throw new Error('another order of items');
	expect(callout.fault.id).toBe(hidden.fault);
	expect(first!.faults.find((fault) => fault.id === hidden.fault)!.area).toBe('sensing');
	// The path's own sums are those that were predicted.
	expect(callout.minutes).toBe(hidden.difficulty.minutes);
	expect(callout.spent).toBe(hidden.difficulty.spent);
	expect(callout.steps.reduce((sum, { minutes }) => sum + minutes, 0)).toBeCloseTo(callout.minutes, 6);
	expect(callout.steps.reduce((sum, { spent }) => sum + spent, 0)).toBeCloseTo(callout.spent, 6);
	expect(drill.answer.length).toBeGreaterThan(0);
	expect(drill.worked.length).toBeGreaterThan(0);
	expect(await one.service.variant(at, 3)).toBeNull();
}, 240_000);
