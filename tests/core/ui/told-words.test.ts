import { describe, expect, it } from 'vitest';
import { isSilent, toldWords } from '../../../src/routes/callout/[id]/debrief/told.ts';

const reading = { bits: 0, confirms: false, ruledOut: [], ruledIn: [] };

describe('how much a reading told', () => {
	it('goes by its bits', () => {
		expect([1.2, 0.4, 0.1].map((bits) => toldWords({ ...reading, bits }))).toEqual([
			'It told much',
			'It told something',
			'It told next to nothing'
		]);
	});

	it('is never next to nothing where it ruled a fault out or in', () => {
		expect(toldWords({ ...reading, bits: 0.02, ruledOut: ['Pump seized'] })).toBe('It told something');
		expect(toldWords({ ...reading, bits: 0.02, ruledIn: ['Pump seized'] })).toBe('It told something');
		expect(isSilent({ ...reading, bits: 0.02, ruledOut: ['Pump seized'] })).toBe(false);
	});

	it('is a confirmation where it showed what was complained of and little else', () => {
		expect(toldWords({ ...reading, bits: 0.02, confirms: true })).toBe('It confirmed what the customer said');
		expect(toldWords({ ...reading, bits: 1.5, confirms: true })).toBe('It told much');
		expect(isSilent({ ...reading, bits: 0.02, confirms: true })).toBe(false);
		expect(isSilent({ ...reading, bits: 0.02 })).toBe(true);
	});
});
