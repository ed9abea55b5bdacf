import { eq } from 'drizzle-orm';
import papaparse from 'papaparse';
import { describe, expect, it } from 'vitest';
import { callouts } from '$lib/server/callouts/callouts.ts';
import { csvOf } from '$lib/server/csv.ts';
import { database } from '$lib/server/database/open.ts';
import { attempt, pack } from '$lib/server/database/schema.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { practice } from '$lib/server/practice/practice.ts';
import { progressFile } from '$lib/server/practice/progress-files.ts';
import { progressOf } from '$lib/server/practice/progress.ts';
import { recallSetting, retentionOf, setRetention } from '$lib/server/practice/recall-setting.ts';
import { begun } from '../fresh.ts';
import { oneServer, someoneWho } from './someone-practised.ts';

oneServer();
const monday = Date.parse('2026-01-05T19:00:00Z');
const dayMs = 86_400_000;
const rowsOf = (text: string) => papaparse.parse<string[]>(text.replace(/^\uFEFF/, ''), { skipEmptyLines: true }).data;

describe('comma-separated text (RFC 4180)', () => {
	it('doubles quotes, quotes fields with commas, quotes and line breaks, ends each record with CRLF', () => {
		expect(
			csvOf(
				['a', 'b'],
				[
					['a"b', 'a,b'],
					['two\nlines', ' kept ']
				]
			)
		).toBe('\uFEFFa,b\r\n"a""b","a,b"\r\n"two\nlines"," kept "\r\n');
	});

	it('brings any text back as it was, but for what a spreadsheet would run', () => {
		const hard = ['a"b', 'a,b', 'a\r\nb', '', 'é µ °', ' x'];
		expect(rowsOf(csvOf(['h', 'h2', 'h3', 'h4', 'h5', 'h6'], [hard]))[1]).toEqual(hard);
		const [, row] = rowsOf(csvOf(['1', '2', '3', '4', '5'], [['=1+1', '+1', '-1', '@x', '\tx']]));
		for (const field of row) expect(field).toMatch(/^'/);
	});

	it('keeps a spreadsheet from running a field of more lines than one, and one that begins with a line break', () => {
		expect(csvOf(['a', 'b', 'c'], [['=1\n+2', '\n=1', 'a\n=1']])).toBe('\uFEFFa,b,c\r\n"\'=1\n+2","\'\n=1","a\n=1"\r\n');
	});

	it('leaves empty what is not known', () => {
		expect(csvOf(['a', 'b', 'c'], [[null, NaN, 0]])).toBe('\uFEFFa,b,c\r\n,,0\r\n');
	});
});

describe('the files of progress', () => {
	it('tell of each skill what the map tells', () => {
		const [first, second] = [...practice().plans.skills.keys()];
		const id = someoneWho(
			{ skill: first!, at: monday, recall: 'sound', minutes: 5.5 },
			{ skill: second!, at: monday + dayMs, recall: 'lost', minutes: 4 }
		);
		const now = monday + 9 * dayMs;
		const rows = rowsOf(progressFile('skills', id, now)!);
		expect(rows).toHaveLength(1 + practice().plans.skills.size);
		const { map } = progressOf(id, now);
		const entry = [...map.rows.flatMap(({ entries }) => entries), ...map.drills].find((one) => one?.skill.id === first)!;
		const row = rows.find(([skill]) => skill === first)!;
		expect(Number(row[2])).toBeCloseTo(entry.remembered!.now, 4);
		expect(Number(row[4])).toBeCloseTo(entry.remembered!.in30Days, 4);
		expect(Number(row[2])).toBeGreaterThan(Number(row[4]));
		expect(row[6]).toBe('2026-01-05T19:00:00.000Z');
		expect(rows.filter(([, , now]) => now !== '')).toHaveLength(3);
		expect(
			rowsOf(progressFile('reviews', id, now)!)
				.slice(1)
				.map(([at, skill, , shown, minutes]) => [at, skill, shown, minutes])
		).toEqual([
			['2026-01-05T19:00:00.000Z', first, 'sound', '5.5'],
			['2026-01-06T19:00:00.000Z', second, 'lost', '4']
		]);
	});

	it('tell how an ended callout was worked, and nothing of one that runs', () => {
		const id = someoneWho();
		const running = begun(callouts(), id, { seed: 4 });
		expect(rowsOf(progressFile('callouts', id)!)).toHaveLength(1);
		callouts().act(running.attemptId, id, { kind: 'leave', told: [] }, running.seq, monday);
		const [, row] = rowsOf(progressFile('callouts', id)!);
		expect(row[0]).toBe('2026-01-05T19:00:00.000Z');
		expect(row.slice(6, 12)).toEqual(['no', '0', '0', '0', '', '']);
		const [heads] = rowsOf(progressFile('callouts', id)!);
		const told = Object.fromEntries(heads.map((head, index) => [head, row[index]]));
		const { rules, hash } = packs().get(told['family']!)!;
		// Leaving at once takes what the rules say on the callout's clock, and no time of the learner's.
		expect(told).toMatchObject({ 'site minutes': `${rules.leaveMinutes}`, currency: rules.currency, 'pack hash': hash, seed: '4' });
		expect(rowsOf(progressFile('reviews', id)!)[0]).toContain('real minutes');
		expect(progressOf(id, monday).figures).toHaveLength(1);
	});

	it('tell of the latest two hundred, and the page says so where there are more; a callout is played again once', () => {
		const id = someoneWho();
		const first = begun(callouts(), id, { seed: 5 });
		callouts().act(first.attemptId, id, { kind: 'leave', told: [] }, first.seq, monday);
		const row = database().select().from(attempt).where(eq(attempt.id, first.attemptId)).get()!;
		// Ended, and of an appliance that is not known any more: each can be counted, and none played.
		database()
			.insert(pack)
			.values({ hash: 'gone', family: 'gone', content: '{}', created: new Date(monday) })
			.onConflictDoNothing()
			.run();
		const older = (n: number) => ({ ...row, id: `older ${n} ${id}`, packHash: 'gone', created: new Date(monday - n * dayMs) });
		database().transaction((inside) => {
			for (let n = 1; n < 200; n++) inside.insert(attempt).values(older(n)).run();
		});
		begun(callouts(), id, { seed: 6 });
		expect(progressOf(id, monday)).toMatchObject({ most: 200, isCut: false, leftOut: 199, figures: [{ soundParts: 0 }] });
		database().insert(attempt).values(older(200)).run();
		expect(progressOf(id, monday)).toMatchObject({ isCut: true, leftOut: 199, figures: [{ soundParts: 0 }] });
		expect(rowsOf(progressFile('callouts', id, monday)!)).toHaveLength(2);
		expect(callouts().measures(first.attemptId, id)).toBe(callouts().measures(first.attemptId, id));
		expect(callouts().measures(first.attemptId, someoneWho())).toBeNull();
	});

	it('are of three names only', () => {
		for (const name of ['', 'toString', '__proto__', 'Skills']) expect(progressFile(name, someoneWho())).toBeNull();
	});
});

describe('the recall at which practice comes back', () => {
	it('is one of those offered, moves what is due, and costs more the higher it is', () => {
		const skills = [...practice().plans.skills.keys()].slice(0, 6);
		const id = someoneWho(...skills.map((skill) => ({ skill, at: monday, recall: 'sound', minutes: 4 }) as const));
		const due = () => [...practice().memories.of(id).values()].map((memory) => memory.due);
		expect(recallSetting(id, monday).retention).toBe(0.85);
		const usual = due();
		for (const said of ['0.5', '', null, '0.850', 'NaN']) expect(retentionOf(said)).toBeNull();
		setRetention(id, retentionOf('0.95')!);
		const { retention, prices } = recallSetting(id, monday);
		expect(retention).toBe(0.95);
		due().forEach((at, i) => expect(at).toBeLessThan(usual[i]!));
		// Below that, what is saved by waiting is lost again on what is forgotten.
		const minutes = prices.filter(({ retention }) => retention >= 0.85).map(({ minutesPerDay }) => minutesPerDay);
		expect(minutes).toEqual(minutes.toSorted((a, b) => a - b));
		expect(minutes.at(-1)).toBeGreaterThan(2 * minutes[0]!);
	});
});
