import { describe, expect, it } from 'vitest';
import { readAction } from '../../../src/routes/callout/[id]/read-action.ts';

const read = (...fields: [string, string][]) => {
	const form = new FormData();
	for (const [name, value] of fields) form.append(name, value);
	return readAction(form);
};

describe('a form of the bench, read', () => {
	it('leaves an empty choice of advice or faults empty, whether the field is there or not', () => {
		expect(read(['kind', 'leave'], ['told', ''], ['seq', '4'])).toEqual({ seq: 4, wanted: { kind: 'leave', told: [] } });
		expect(read(['kind', 'leave'], ['seq', '4']).wanted).toEqual({ kind: 'leave', told: [] });
		expect(read(['kind', 'judge'], ['still', ''], ['still', 'pump-weak']).wanted).toEqual({ kind: 'judge', still: ['pump-weak'] });
	});

	it('counts a line break of a note as one character', () => {
		expect(read(['kind', 'note'], ['text', 'one\r\ntwo']).wanted).toEqual({ kind: 'note', text: 'one\ntwo' });
	});

	it('takes a number in the path from digits only', () => {
		for (const seq of ['', ' 1', '1e3', '-1', '0x1']) expect(read(['kind', 'prove'], ['seq', seq]).seq).toBeNaN();
	});
});
