import { beforeEach, afterEach, describe, expect, it, vi } from 'vitest';
import { addLearner, signIn, signUp, type Learner } from '$lib/server/accounts/index.ts';
import { auditOf, verifyAudit } from '$lib/server/audit/audit.ts';
import { calloutsIn } from '$lib/server/callouts/callouts.ts';
import { codeFrom, newCode } from '$lib/server/cohorts/codes.ts';
import { cohortsIn, type Cohorts } from '$lib/server/cohorts/cohorts.ts';
import { closeDatabase, database } from '$lib/server/database/open.ts';
import { reviewLogIn } from '$lib/server/database/review-log.ts';
import { auditEntry, cohort, learner, member, paper, sitting } from '$lib/server/database/schema.ts';
import { curriculum } from '$lib/server/packs/curriculum.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { practiceIn } from '$lib/server/practice/practice.ts';
import { eq } from 'drizzle-orm';
import { Browser } from '../arriving.ts';
import { makePaper } from '../papers.ts';
import { freshFolder } from './fresh.ts';

const now = Date.UTC(2026, 2, 10, 19);
const dayMs = 86_400_000;
const password = 'two short planks';
const visit = { getClientAddress: () => '192.0.2.7' };
let service: Cohorts;
let ann: Learner;

beforeEach(async () => {
	vi.stubEnv('PROVEWELL_DATA', freshFolder());
	const db = database();
	const callouts = calloutsIn(db, packs());
	service = cohortsIn(db, practiceIn(db, callouts, packs(), curriculum()), callouts, packs());
	ann = await account('Ann', 'assessor');
});
afterEach(closeDatabase);

async function account(name: string, role: Learner['role'] = 'learner'): Promise<Learner> {
	const browser = new Browser();
	expect(await signUp(await browser.arrive(), { name, password })).toEqual({ outcome: 'done' });
	database().update(learner).set({ role }).where(eq(learner.name, name)).run();
	return (await browser.learner())!;
}
function made(by = ann, name = 'Tuesdays'): string {
	const result = service.make(by.id, { name }, now);
	if (result.outcome !== 'made') throw new Error(JSON.stringify(result));
	return result.id;
}
const by = (cohortId: string, who = ann) => ({ assessor: who.id, cohort: cohortId, now });
const linesOf = (cohortId: string) => service.register.lines(cohortId);
const codeOf = (cohortId: string) => database().select().from(cohort).where(eq(cohort.id, cohortId)).get()!.code!;
const kinds = () =>
	database()
		.select()
		.from(auditEntry)
		.all()
		.map(({ kind }) => kind);
function withNames(text: string): string {
	const id = made();
	expect(service.register.add(by(id), text)).toMatchObject({ outcome: 'added' });
	return id;
}
function practised(who: Learner, skill: string, daysAgo: number, recall: 'lost' | 'sound', minutes = 10): void {
	reviewLogIn(database()).add({ learner: who.id, skill, at: new Date(now - daysAgo * dayMs), recall, minutes });
}

describe('a code', () => {
	it('is drawn from an alphabet without look-alikes, and is read however it is written', () => {
		const drawn = Array.from({ length: 300 }, newCode);
		expect(new Set(drawn).size).toBe(300);
		for (const code of drawn) {
			expect(code).toMatch(/^[^AEIOULSZB01]{8}$/);
			const spoken = `${code.slice(0, 4)}-${code.slice(4)}`.toLowerCase().replace('5', 's').replace('8', 'b');
			expect(codeFrom(` ${spoken} `)).toBe(code);
			expect(codeFrom(`http://somewhere:4173/join/${code}`)).toBe(code);
		}
		for (const none of ['', 'CDFG', 'CDFGCDFGC', 'CDFG CDF0', '../../etc', 'x'.repeat(100_000)]) expect(codeFrom(none)).toBeNull();
	});
});

describe('a cohort', () => {
	it('is one assessor’s until they add another; to anybody else it is not there', async () => {
		const ben = await account('Ben', 'assessor');
		const id = withNames('Cat Cole');
		const line = linesOf(id)[0]!.id;
		const missing = { outcome: 'missing' };
		expect(service.page(ben.id, id, now)).toBeNull();
		expect(service.registerPage(ben.id, id, 'http://here')).toBeNull();
		expect(service.invitations(ben.id, id, 'http://here')).toBeNull();
		expect(service.register.add(by(id, ben), 'Dan')).toEqual(missing);
		expect(service.register.takeOff(by(id, ben), line)).toEqual(missing);
		expect(service.register.inviteAgain(by(id, ben), line)).toEqual(missing);
		expect(service.register.setExtra(by(id, ben), line, { extra: '25' })).toEqual(missing);
		for (const change of [service.archive, service.restore]) expect(change(by(id, ben))).toEqual(missing);
		expect(service.rename(by(id, ben), { name: 'Mine' })).toEqual(missing);
		expect(service.setCode(by(id, ben), true)).toEqual(missing);
		expect(service.project(ben.id, id, { family: [...packs().keys()][0]!, area: 'gas' }, now)).toEqual(missing);
		expect(service.list(ben.id)).toEqual([]);
		// A line of one's own cohort is no way to one of another's.
		expect(service.register.takeOff(by(made(ben), ben), line)).toEqual(missing);
		expect(linesOf(id)).toHaveLength(1);

		expect(service.colleagues.add(visit, by(id), { colleague: ' BEN ' })).toEqual({ outcome: 'done' });
		expect(service.page(ben.id, id, now)).not.toBeNull();
		expect(service.colleagues.drop(by(id), ann.id).outcome).toBe('refused');
		expect(service.colleagues.drop(by(id), ben.id)).toEqual({ outcome: 'done' });
		expect(service.page(ben.id, id, now)).toBeNull();
	});

	it('says the same of a colleague’s name that a learner bears as of one that nobody bears, and soon no more', async () => {
		await account('Cat');
		const id = made();
		const [learners, nobodys] = ['Cat', 'Nobody'].map((colleague) => service.colleagues.add(visit, by(id), { colleague }));
		expect(learners).toMatchObject({ outcome: 'refused', problems: { colleague: expect.any(String) } });
		expect(nobodys).toEqual(learners);
		for (let tries = 0; tries < 20; tries++) service.colleagues.add(visit, by(id), { colleague: `Nobody ${tries}` });
		expect(service.colleagues.add(visit, by(id), { colleague: 'Cat' })).toMatchObject({ says: expect.stringContaining('Too many tries') });
	});

	it('is archived and restored once however often it is said, changes nothing meanwhile, and is audited', () => {
		const id = withNames('Cat Cole');
		for (let times = 0; times < 2; times++) expect(service.archive(by(id))).toEqual({ outcome: 'done' });
		expect(service.register.add(by(id), 'Dan')).toMatchObject({ outcome: 'refused', says: expect.stringContaining('archived') });
		expect(service.list(ann.id)).toMatchObject([{ archived: true, members: 1 }]);
		for (let times = 0; times < 2; times++) expect(service.restore(by(id))).toEqual({ outcome: 'done' });
		expect(service.register.add(by(id), 'Dan')).toEqual({ outcome: 'added', count: 1 });
		expect(kinds()).toEqual(['cohort-made', 'member-added', 'cohort-archived', 'cohort-restored', 'member-added']);
		expect(verifyAudit(database())).toMatchObject({ outcome: 'whole', rows: 5 });
		expect(JSON.stringify(database().select().from(auditEntry).all())).not.toMatch(/Cat|Dan/);
	});

	it('that is invented is every assessor’s to look at and nobody’s to change or to join', () => {
		const id = made();
		const code = codeOf(id);
		database().update(cohort).set({ invented: true }).where(eq(cohort.id, id)).run();
		expect(service.register.add(by(id), 'Dan')).toMatchObject({ outcome: 'refused', says: expect.stringContaining('invented') });
		expect(service.archive(by(id)).outcome).toBe('refused');
		expect(service.registerPage(ann.id, id, 'http://here')!.open).toBeNull();
		expect(service.joining.invitation(visit, null, code, now).outcome).toBe('unknown');
	});
});

describe('names on a register', () => {
	it('each have an own invitation, and none is added where anything is wrong with one', () => {
		const id = made();
		const wrong = service.register.add(by(id), 'Cat Cole\n=HYPERLINK("http://x")\nDan Dean');
		expect(wrong).toMatchObject({ outcome: 'looked', given: { isSound: false } });
		expect(linesOf(id)).toEqual([]);
		expect(service.register.add(by(id), 'Cat Cole\nDan Dean')).toEqual({ outcome: 'added', count: 2 });
		const codes = linesOf(id).map(({ code }) => code);
		expect(new Set(codes).size).toBe(2);
		// The form sent twice adds nobody twice.
		expect(service.register.add(by(id), 'Cat Cole\nDan Dean')).toMatchObject({ given: { isSound: false } });
		expect(linesOf(id)).toHaveLength(2);
	});

	it('get more time at once in a sitting that runs, up to the end of its window, and never less than they had', () => {
		const id = withNames('Cat Cole, 2041, 25');
		const cat = linesOf(id)[0]!.id;
		const db = database();
		const minute = 60_000;
		const set = makePaper(db, { cohort: id, minutes: 60, now, closes: now + 100 * minute, variants: [] });
		const sat = (name: string, number: number, deadline: number, ended: Date | null = null) =>
			db
				.insert(sitting)
				.values({
					...{ id: name, paper: set, member: cat, variant: 1, number, ended },
					...{ started: new Date(now), seen: new Date(now), deadline: new Date(now + deadline * minute) }
				})
				.run();
		sat('running', 1, 75);
		sat('over', 2, 5);
		sat('ended', 3, 75, new Date(now));
		const minutesOf = () =>
			Object.fromEntries(
				db
					.select()
					.from(sitting)
					.all()
					.map(({ id, deadline }) => [id, (deadline.getTime() - now) / minute])
			);
		const setExtra = (extra: string) => service.register.setExtra({ ...by(id), now: now + 10 * minute }, cat, { extra });
		expect(setExtra('50')).toEqual({ outcome: 'done' });
		expect(minutesOf()).toEqual({ running: 90, over: 5, ended: 75 });
		expect(setExtra('0')).toEqual({ outcome: 'done' });
		expect(minutesOf()).toEqual({ running: 90, over: 5, ended: 75 });
		expect(setExtra('200')).toEqual({ outcome: 'done' });
		expect(minutesOf()).toEqual({ running: 100, over: 5, ended: 75 });
		expect(kinds().slice(-5)).toEqual(['extra-time', 'deadline-moved', 'extra-time', 'extra-time', 'deadline-moved']);
		const moved = auditOf(db, 'running').map(({ by, content }) => [by, JSON.parse(content)]);
		const time = (minutes: number) => new Date(now + minutes * minute).toISOString();
		expect(moved).toEqual([
			[ann.id, { from: time(75), to: time(90) }],
			[ann.id, { from: time(90), to: time(100) }]
		]);
	});

	it('come with references and extra time, and go: one that never joined for good, one who sat a paper never', async () => {
		const id = withNames('Name,Reference,Extra time\nCat Cole,2041,25%\nDan Dean,2042,');
		const [cat, dan] = linesOf(id);
		expect([cat, dan]).toMatchObject([
			{ name: 'Cat Cole', reference: '2041', extraPercent: 25, standing: 'invited' },
			{ name: 'Dan Dean', reference: '2042', extraPercent: 0 }
		]);
		for (const extra of ['-1', '1.5', '201', 'much', '1e2']) {
			expect(service.register.setExtra(by(id), dan!.id, { extra }), extra).toMatchObject({ problems: { extra: expect.any(String) } });
		}
		expect(service.register.setExtra(by(id), dan!.id, { extra: '50' })).toEqual({ outcome: 'done' });
		expect(service.register.takeOff(by(id), dan!.id)).toEqual({ outcome: 'done' });
		expect(linesOf(id)).toHaveLength(1);

		const db = database();
		const of = {
			id: 'p',
			cohort: id,
			title: 'Paper',
			mode: 'formal' as const,
			blueprint: '{}',
			passRule: '{}',
			minutes: 60,
			createdBy: ann.id
		};
		db.insert(paper)
			.values({ ...of, created: new Date(now) })
			.run();
		const at = new Date(now);
		db.insert(sitting).values({ id: 's', paper: 'p', member: cat!.id, variant: 1, number: 1, started: at, deadline: at, seen: at }).run();
		expect(service.register.takeOff(by(id), cat!.id)).toEqual({ outcome: 'done' });
		expect(linesOf(id)).toMatchObject([{ standing: 'left' }]);
		expect(db.select().from(sitting).all()).toHaveLength(1);
	});

	it('are at most two hundred', () => {
		const id = made();
		const names = (from: number, count: number) => Array.from({ length: count }, (_, at) => `Learner ${from + at}`).join('\n');
		expect(service.register.add(by(id), names(0, 201))).toMatchObject({ outcome: 'looked', given: { isSound: false } });
		expect(service.register.add(by(id), names(0, 150))).toEqual({ outcome: 'added', count: 150 });
		expect(service.register.add(by(id), names(150, 51)).outcome).toBe('refused');
		expect(linesOf(id)).toHaveLength(150);
	});
});

describe('joining', () => {
	it('by the cohort’s code puts the account’s name on the register, once', async () => {
		const id = made();
		const cat = await account('Cat');
		const code = codeOf(id);
		expect(service.joining.invitation(visit, cat, code, now)).toMatchObject({
			outcome: 'open',
			cohort: 'Tuesdays',
			name: null,
			assessors: ['Ann']
		});
		for (let times = 0; times < 2; times++)
			expect(service.joining.join(visit, cat, code, now)).toEqual({ outcome: 'joined', cohort: 'Tuesdays' });
		expect(linesOf(id)).toMatchObject([{ name: 'Cat', standing: 'joined', code: null }]);
		expect(service.joining.own(cat.id, Date.now())).toMatchObject([{ cohort: 'Tuesdays', name: 'Cat' }]);
		expect(service.hasPapers(cat.id)).toBe(true);
	});

	it('by an own invitation is as the name on it, once; to the next who holds it that is said', async () => {
		const id = withNames('Catherine Cole, 2041');
		const { code } = linesOf(id)[0]!;
		const [cat, dan] = [await account('Cat'), await account('Dan')];
		expect(service.joining.invitation(visit, null, code!, now)).toMatchObject({ outcome: 'open', name: 'Catherine Cole' });
		for (let times = 0; times < 2; times++) expect(service.joining.join(visit, cat, code!, now).outcome).toBe('joined');
		expect(service.joining.join(visit, dan, code!, now)).toMatchObject({
			outcome: 'closed',
			says: expect.stringContaining('has been used')
		});
		expect(service.joining.invitation(visit, null, code!, now)).toMatchObject({ outcome: 'closed' });
		expect(linesOf(id)).toMatchObject([{ name: 'Catherine Cole', standing: 'joined', code: null }]);
		expect(service.register.inviteAgain(by(id), linesOf(id)[0]!.id).outcome).toBe('refused');
	});

	describe('by the cohort’s code, with a name that waits on the register', () => {
		it('asks whether it is theirs: yes takes that line up, with its reference and extra time', async () => {
			const id = withNames('name,reference,extra\nDot Ridge,2043,25\nEd Ash,2044,0');
			const dot = await account('dot ridge');
			const perhaps = { name: 'Dot Ridge', reference: '2043' };
			expect(service.joining.invitation(visit, dot, codeOf(id), now)).toMatchObject({ outcome: 'open', name: null, perhaps });
			expect(service.joining.invitation(visit, null, codeOf(id), now)).toMatchObject({ outcome: 'open', perhaps: null });
			const other = linesOf(id).find(({ name }) => name === 'Ed Ash')!;
			for (const as of [null, '', other.id])
				expect(service.joining.join(visit, dot, codeOf(id), now, as)).toEqual({ outcome: 'asked', says: 'Say whether you are Dot Ridge.' });
			const line = linesOf(id).find(({ name }) => name === 'Dot Ridge')!;
			expect(service.joining.join(visit, dot, codeOf(id), now, line.id).outcome).toBe('joined');
			expect(linesOf(id)).toMatchObject([
				{ id: line.id, standing: 'joined', reference: '2043', extraPercent: 25 },
				{ standing: 'invited' }
			]);
			expect(service.joining.invitation(visit, null, line.code!, now)).toMatchObject({ outcome: 'closed' });
		});

		it('no makes a line of its own, and where two have the name nothing is asked', async () => {
			const id = withNames('Dot Ridge');
			const dot = await account('Dot Ridge');
			expect(service.joining.join(visit, dot, codeOf(id), now, 'new').outcome).toBe('joined');
			expect(
				linesOf(id)
					.map(({ standing }) => standing)
					.sort()
			).toEqual(['invited', 'joined']);
			const twins = made();
			service.register.add(by(twins), 'Dot Ridge,1\nDot Ridge,2');
			expect(service.joining.invitation(visit, dot, codeOf(twins), now)).toMatchObject({ outcome: 'open', perhaps: null });
			expect(service.joining.join(visit, dot, codeOf(twins), now).outcome).toBe('joined');
		});
	});

	it('as a new name leaves a line that the assessor puts into it, audited, with reference and extra time', async () => {
		const id = withNames('name,reference,extra\nDorothy Ridge,2043,25\nEd Ash,2044,0');
		const dot = await account('Dot');
		service.joining.join(visit, dot, codeOf(id), now);
		const of = (name: string) => linesOf(id).find((line) => line.name === name)!.id;
		const [dots, dorothys, eds] = ['Dot', 'Dorothy Ridge', 'Ed Ash'].map(of) as [string, string, string];
		const mergeable = service.registerPage(ann.id, id, 'http://here')!.mergeable;
		expect([...mergeable].sort()).toEqual([dorothys, eds].sort());
		expect(service.merge(by(id), dots, dorothys)).toMatchObject({ outcome: 'refused', isConflict: true });
		expect(service.merge(by(id), dorothys, eds)).toMatchObject({ outcome: 'refused', says: expect.stringContaining('another reference') });
		for (const into of ['', 'nobody', dorothys]) expect(service.merge(by(id), dorothys, into).outcome).toBe('refused');
		const ben = await account('Ben', 'assessor');
		expect(service.merge(by(id, ben), dorothys, dots)).toEqual({ outcome: 'missing' });
		expect(service.merge(by(id), dorothys, dots)).toEqual({ outcome: 'done' });
		expect(linesOf(id)).toMatchObject([{ id: dots, name: 'Dot', reference: '2043', extraPercent: 25, standing: 'joined' }, { id: eds }]);
		const told = auditOf(database(), dots).at(-1)!;
		expect(told).toMatchObject({ kind: 'member-merged', by: ann.id, cohort: id });
		expect(JSON.parse(told.content)).toMatchObject({ merged: dorothys, extra: { before: 0, after: 25 } });
		expect(service.merge(by(id), dorothys, dots)).toEqual({ outcome: 'missing' });
	});

	it('by another name’s invitation is refused to who is or was on the register, and neither line changes', async () => {
		const id = withNames('Catherine Cole, 2041, 25');
		const cat = await account('Cat');
		service.joining.join(visit, cat, codeOf(id), now);
		expect(linesOf(id)).toHaveLength(2);
		const { code } = linesOf(id).find((line) => line.standing === 'invited')!;
		const before = linesOf(id);
		const closed = { outcome: 'closed', says: 'You are on this register as Cat; ask your assessor.' };
		expect(service.joining.invitation(visit, cat, code!, now)).toMatchObject(closed);
		expect(service.joining.join(visit, cat, code!, now)).toMatchObject(closed);
		expect(linesOf(id)).toEqual(before);
		service.joining.leave(cat.id, service.joining.own(cat.id, now)[0]!.id, now);
		expect(service.joining.join(visit, cat, code!, now)).toMatchObject({ says: 'You were on this register as Cat; ask your assessor.' });
		expect(linesOf(id).map(({ name, standing }) => [name, standing])).toEqual([
			['Cat', 'left'],
			['Catherine Cole', 'invited']
		]);
		// Whose it is takes it still.
		expect(service.joining.join(visit, await account('Other'), code!, now).outcome).toBe('joined');
	});

	it('is not for who keeps the cohort, and that is said', async () => {
		const id = withNames('Dan Dean');
		for (const code of [codeOf(id), linesOf(id)[0]!.code!])
			expect(service.joining.join(visit, ann, code, now)).toMatchObject({ outcome: 'closed', says: expect.stringContaining('You keep') });
		expect(linesOf(id)).toMatchObject([{ standing: 'invited' }]);
		expect(service.joining.join(visit, await account('Ben', 'assessor'), codeOf(id), now).outcome).toBe('joined');
	});

	it('is not to be had by a code that was renewed, switched off, taken back, or is of an archived cohort', async () => {
		const id = withNames('Dan Dean');
		const cat = await account('Cat');
		const [first, own] = [codeOf(id), linesOf(id)[0]!];
		service.setCode(by(id), true);
		expect(service.joining.join(visit, cat, first, now).outcome).toBe('unknown');
		const second = codeOf(id);
		service.setCode(by(id), false);
		expect(service.joining.join(visit, cat, second, now).outcome).toBe('unknown');
		service.register.inviteAgain(by(id), own.id);
		expect(service.joining.join(visit, cat, own.code!, now).outcome).toBe('unknown');
		service.setCode(by(id), true);
		service.archive(by(id));
		expect(service.joining.join(visit, cat, codeOf(id), now)).toMatchObject({
			outcome: 'closed',
			says: expect.stringContaining('archived')
		});
		expect(service.joining.own(cat.id, Date.now())).toEqual([]);
	});

	it('is limited: guesses are counted by account, right codes are not', async () => {
		const id = made();
		const cat = await account('Cat');
		for (let looks = 0; looks < 30; looks++) expect(service.joining.invitation(visit, cat, codeOf(id), now).outcome).toBe('open');
		for (let tries = 0; tries < 20; tries++) expect(service.joining.invitation(visit, cat, newCode(), now).outcome).toBe('unknown');
		expect(service.joining.join(visit, cat, codeOf(id), now)).toMatchObject({
			outcome: 'limited',
			says: expect.stringContaining('Too many tries')
		});
		const elsewhere = { getClientAddress: () => '198.51.100.9' };
		expect(service.joining.invitation(elsewhere, cat, codeOf(id), now).outcome).toBe('limited');
		// The classroom behind the same address goes on, joining and signing in.
		expect(service.joining.join(visit, await account('Dan'), codeOf(id), now).outcome).toBe('joined');
		expect(await signIn(await new Browser().arrive(), { name: 'Cat', password }, now)).toEqual({ outcome: 'done' });
		expect(service.joining.invitation(visit, cat, codeOf(id), now + 16 * 60_000).outcome).toBe('open');
	});

	it('is limited by address where there is no session, and three hundred wrong codes keep nobody there from signing in', async () => {
		const id = made();
		const [arrived, ...others] = await Promise.all([new Browser().arrive(), new Browser().arrive()]);
		const there = { getClientAddress: () => others[0]!.getClientAddress() };
		await account('Cat');
		for (let tries = 0; tries < 300; tries++) expect(service.joining.invitation(there, null, newCode(), now).outcome).toBe('unknown');
		expect(service.joining.invitation(there, null, codeOf(id), now).outcome).toBe('limited');
		expect(await signIn(arrived!, { name: 'Cat', password: 'something else' }, now)).toMatchObject({
			says: expect.stringContaining('do not belong together')
		});
		expect(await signIn(arrived!, { name: 'Cat', password }, now)).toEqual({ outcome: 'done' });
	});

	it('is left by the learner, whose practice is then seen no more, and taken up again on the same line', async () => {
		const id = made();
		const [cat, dan] = [await account('Cat'), await account('Dan')];
		service.joining.join(visit, cat, codeOf(id), now);
		practised(cat, 'combi-plate-primary/gas', 1, 'sound');
		const line = linesOf(id)[0]!.id;
		expect(service.page(ann.id, id, now)!.members).toMatchObject([{ practised: { minutesIn7Days: 10 } }]);
		// Nobody leaves for another.
		service.joining.leave(dan.id, line, now);
		expect(linesOf(id)).toMatchObject([{ standing: 'joined' }]);
		service.joining.leave(cat.id, line, now);
		const page = service.page(ann.id, id, now)!;
		expect(page.members).toEqual([]);
		expect(page.map.rows.every(({ entries }) => entries.every((entry) => entry === null || entry.held.of === 0))).toBe(true);
		expect(service.hasPapers(cat.id)).toBe(false);
		// Whoever has sat keeps the way to what came of it.
		const at = new Date(now);
		const sat = { variant: 1, number: 1, started: at, deadline: at, seen: at, ended: at };
		database()
			.insert(sitting)
			.values({ id: 's', paper: makePaper(database(), { cohort: id, variants: [], now }), member: line, ...sat })
			.run();
		expect([service.hasPapers(cat.id), service.hasPapers(dan.id)]).toEqual([true, false]);
		service.joining.join(visit, cat, codeOf(id), now);
		expect(linesOf(id)).toMatchObject([{ id: line, standing: 'joined' }]);
	});

	it('anew by a name taken off is for the same account only', async () => {
		const id = withNames('Cat Cole');
		const [cat, dan] = [await account('Cat'), await account('Dan')];
		const line = linesOf(id)[0]!;
		service.joining.join(visit, cat, line.code!, now);
		service.register.takeOff(by(id), line.id);
		service.register.inviteAgain(by(id), line.id);
		const { code } = linesOf(id)[0]!;
		expect(service.joining.join(visit, dan, code!, now).outcome).toBe('closed');
		expect(service.joining.join(visit, cat, code!, now).outcome).toBe('joined');
		expect(linesOf(id)).toMatchObject([{ standing: 'joined' }]);
	});
});

describe('the page of a cohort', () => {
	it('has the minutes of each by their days, the map, and tomorrow’s lesson with the weakest area first', async () => {
		const id = made();
		const people = [await account('Cat'), await account('Dan'), await account('Eve')];
		for (const one of people) service.joining.join(visit, one, codeOf(id), now);
		const family = [...packs().keys()][0]!;
		for (const one of people) {
			practised(one, `${family}/gas`, 2, 'sound', 6);
			practised(one, `${family}/diverting`, 10, 'lost', 8);
			practised(one, `${family}/gas`, 40, 'sound', 100);
		}
		const page = service.page(ann.id, id, now)!;
		for (const { practised: shown } of page.members) {
			expect(shown).toEqual({ minutesIn7Days: 6, minutesIn30Days: 14, last: new Date(now - 2 * dayMs) });
		}
		expect(page.weakest).toHaveLength(3);
		expect(page.weakest[0]).toMatchObject({ area: 'diverting', family, entry: { held: { count: 0, of: 3 } } });
		const gas = page.map.rows.find(({ area }) => area === 'gas')!.entries[page.map.families.indexOf(family)]!;
		expect(gas.held).toMatchObject({ count: 3, of: 3 });

		const projected = service.project(ann.id, id, page.weakest[0]!, now);
		if (projected.outcome !== 'started') throw new Error('no callout was started');
		const attempt = database()
			.query.attempt.findFirst({ where: (row) => eq(row.id, projected.attemptId) })
			.sync()!;
		expect(attempt).toMatchObject({ learner: ann.id, family });
		expect(
			packs()
				.get(family)!
				.faults.find(({ id }) => id === attempt.fault)!.area
		).toBe('diverting');
		for (const wanted of [
			{ family, area: 'moonlight' },
			{ family: 'constructor', area: 'gas' }
		])
			expect(service.project(ann.id, id, wanted, now).outcome).toBe('missing');
	});

	it('counts nobody who has no account, has left, or is in another cohort', async () => {
		const [id, other] = [withNames('Not joined'), made(ann, 'Wednesdays')];
		const cat = await account('Cat');
		service.joining.join(visit, cat, codeOf(other), now);
		practised(cat, `${[...packs().keys()][0]!}/gas`, 1, 'sound');
		const page = service.page(ann.id, id, now)!;
		expect(page.members).toMatchObject([{ standing: 'invited', practised: null }]);
		expect(page.map.rows.flatMap(({ entries }) => entries).every((entry) => !entry || entry.untried.length + entry.held.of === 0)).toBe(
			true
		);
	});

	it('folds sixty people’s skills into one map', () => {
		const id = made();
		const db = database();
		const skill = `${[...packs().keys()][0]!}/gas`;
		for (let at = 0; at < 60; at++) {
			const one = addLearner({ guest: false, invented: false }, db);
			db.insert(member)
				.values({ id: `m${at}`, cohort: id, name: `Learner ${at}`, learner: one.id, joined: new Date(now), created: new Date(now) })
				.run();
			practised(one, skill, 1, at % 4 === 0 ? 'lost' : 'sound');
		}
		const { map, members, weakest } = service.page(ann.id, id, now)!;
		const gas = map.rows.find(({ area }) => area === 'gas')!.entries.find((entry) => entry?.skill.id === skill)!;
		expect(gas.held).toMatchObject({ of: 60, count: 45 });
		expect(gas.weak.map(({ isLost }) => isLost)).toEqual(Array<boolean>(15).fill(true));
		expect(new Set(gas.weak.map(({ id: one }) => one))).toEqual(new Set(Array.from({ length: 15 }, (_, at) => `m${at * 4}`)));
		expect(members).toHaveLength(60);
		expect(weakest[0].area).toBe('gas');
	});
});
