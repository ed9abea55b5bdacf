import { describe, expect, it } from 'vitest';
import { readNames, textIn } from '$lib/server/cohorts/names-given.ts';

const read = (text: string, taken: Parameters<typeof readNames>[1] = []) => readNames(text, taken);
const namesIn = (text: string) => read(text).lines.map(({ name }) => name);
const problemsIn = (text: string) => read(text).lines.map(({ problem }) => problem !== null);

describe('names that are given', () => {
	it('are one a line, or columns under headings in any order and by any of the usual signs between', () => {
		expect(namesIn('Cat Cole\r\n\r\n  Dan   Dean \nLearner 7')).toEqual(['Cat Cole', 'Dan Dean', 'Learner 7']);
		const wanted = [
			{ name: 'Cat Cole', reference: '2041', extraPercent: 25 },
			{ name: 'Dan Dean', reference: null, extraPercent: 0 }
		];
		for (const sign of [',', ';', '\t']) {
			const text = ['Learner number,E-mail,Full name,Extra time %', '2041,a@b.example,Cat Cole,25 %', ',,Dan Dean,'].join('\n');
			const given = read(text.replaceAll(',', sign));
			expect(given.lines, sign).toMatchObject(wanted);
			expect(given).toMatchObject({ isSound: true, unused: ['E-mail'] });
		}
		expect(namesIn('Surname,First name\nCole,Cat\n"O’Dean, junior",Dan')).toEqual(['Cat Cole', 'Dan O’Dean, junior']);
		expect(read('\uFEFFCat Cole,2041,25').lines).toMatchObject([wanted[0]]);
	});

	it('are not taken apart: a surname before a comma is asked about, not made a name', () => {
		expect(read('Cole, Cat\nDean, Dan')).toMatchObject({ isSound: false, says: expect.stringContaining('rest of a name'), lines: [] });
		expect(namesIn('"Cole, Cat"')).toEqual(['Cole, Cat']);
	});

	it('are each told what is wrong', () => {
		expect(problemsIn('name,extra\n,25\nCat,300\nDan,much\nEve,-5\nFay,10')).toEqual([true, true, true, true, false]);
		expect(problemsIn('Cat\u200bCole\n\u202eDan\n...\nEve')).toEqual([true, true, true, false]);
		expect(problemsIn(`${'x'.repeat(61)}\n${'x'.repeat(60)}`)).toEqual([true, false]);
		expect(problemsIn('name,ref\nCat,=1+1\nDan,7')).toEqual([true, false]);
	});

	it('that a spreadsheet would work out are refused, however the sign is written', () => {
		for (const sign of ['=', '+', '-', '@', '＝', ' =', '"\t="']) expect(read(`name\n${sign}cmd|calc`).isSound, sign).toBe(false);
		expect(read('name\nAnne-Marie Cole').isSound).toBe(true);
	});

	it('that are two people’s need references, and a reference is one person’s', () => {
		expect(problemsIn('Cat Cole\ncat cole')).toEqual([true, true]);
		expect(problemsIn('Cat Cole,1\nCat Cole,2')).toEqual([false, false]);
		expect(problemsIn('Cat Cole,1\nDan Dean,1')).toEqual([true, true]);
		expect(read('Cat Cole', [{ name: 'Cat Cole', reference: null }]).isSound).toBe(false);
		expect(read('Dan,1', [{ name: 'Cat', reference: '1' }]).isSound).toBe(false);
	});

	it('are turned away as a whole where no line of it can be told', () => {
		for (const text of ['', ' \n\n', 'name,reference', 'reference,extra time\n1,2', 'a 1,b 2,c 3,d 4', 'Cat\n"Dan', 'x\n'.repeat(201)]) {
			const given = read(text);
			expect(given, text.slice(0, 20)).toMatchObject({ isSound: false, says: expect.any(String), lines: [] });
		}
	});
});

describe('a file of names', () => {
	it('is read as spreadsheets save it, and is refused where it is no text', () => {
		const bytes = (...all: number[]) => Uint8Array.from(all);
		expect(textIn(new TextEncoder().encode('Zoë'))).toBe('Zoë');
		expect(textIn(bytes(0x5a, 0x6f, 0xeb))).toBe('Zoë');
		expect(textIn(bytes(0xff, 0xfe, 0x5a, 0, 0x6f, 0, 0xeb, 0))).toBe('Zoë');
		expect(textIn(bytes(0xfe, 0xff, 0, 0x5a, 0, 0x6f, 0, 0xeb))).toBe('Zoë');
		expect(textIn(bytes(0x50, 0x4b, 3, 4, 0, 0))).toBeNull();
	});
});
