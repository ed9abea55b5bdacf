import { describe, expect, it } from 'vitest';
import { readAction, readActions } from '../../../src/routes/callout/[id]/read-action.ts';

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

	it('puts a prediction before its check, suspects with what each would read, an unnamed third left out', () => {
		const form = new FormData();
		const fields = [
			['kind', 'predict'],
			['check', 'tap'],
			['fault', 'a'],
			['reads', 'lower'],
			['fault', 'b'],
			['reads', 'as-sound'],
			['fault', ''],
			['reads', 'cannot-tell'],
			['range', 'v20'],
			['seq', '3']
		] as const;
		for (const [name, value] of fields) form.append(name, value);
		const expects = [
			{ fault: 'a', reads: 'lower' },
			{ fault: 'b', reads: 'as-sound' }
		];
		const check = { kind: 'check', check: 'tap', range: 'v20' };
		expect(readActions(form)).toEqual({ seq: 3, wanted: [{ kind: 'predict', check: 'tap', expects }, check] });
		form.set('kind', 'check');
		expect(readActions(form)).toEqual({ seq: 3, wanted: [check] });
	});

	it('takes a number in the path from digits only', () => {
		for (const seq of ['', ' 1', '1e3', '-1', '0x1']) expect(read(['kind', 'prove'], ['seq', seq]).seq).toBeNaN();
	});
});
