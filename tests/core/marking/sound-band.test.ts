import { describe, expect, it } from 'vitest';
import { does } from '../callout/drive.ts';
import { soundBands } from '#shared/marking/sound-band.ts';
import { columnsOf } from '#shared/diagnosis/columns.ts';
import type { Action } from '#shared/callout/action.ts';
import { combi, calloutsWith } from '../../sampled.ts';
import { table } from './walk.ts';

const demand: Action = { kind: 'demand', demand: 'tap' };
const check = (id: string): Action => ({ kind: 'check', check: id });
const judge: Action = { kind: 'judge', still: [] };
const [callout] = calloutsWith('plate-scaled', 1);

describe('the band of a sound appliance', () => {
	it('is given for no reading before a judgement, and for none taken after it', () => {
		const taken = does(callout, [demand, check('measure-tap-temperature')]);
		expect(soundBands(combi, taken, table)).toEqual([]);
		const judged = does(callout, [judge], taken);
		const shown = soundBands(combi, judged, table);
		expect(shown.map((band) => [band.event, band.check])).toEqual(taken.readings.map((reading) => [reading.event, reading.check]));
		const later = does(callout, [check('measure-tap-flow')], judged);
		expect(soundBands(combi, later, table)).toEqual(shown);
		const again = soundBands(combi, does(callout, [judge], later), table);
		expect(again).toHaveLength(shown.length + 1);
		expect(again.at(-1)!.check).toBe('measure-tap-flow');
	});

	it('is the 90 % band of its column under its demand, as the instrument would show it', () => {
		const state = does(callout, [demand, check('measure-tap-temperature'), judge]);
		const band = soundBands(combi, state, table).find(({ check: id }) => id === 'measure-tap-temperature')!;
		const at = columnsOf(combi).findIndex(({ check: one, demand: under }) => one.id === 'measure-tap-temperature' && under === 'tap');
		const { from, to } = table.columns[at].healthy;
		const [low, high] = band.says.match(/[\d.]+/g)!.map(Number);
		const { resolution } = combi.instruments.find(
			({ id }) => id === combi.checks.find((c) => c.id === 'measure-tap-temperature')!.instrument
		)!;
		expect(Math.abs(low - from)).toBeLessThanOrEqual(resolution);
		expect(Math.abs(high - to)).toBeLessThanOrEqual(resolution);
		const { value } = state.readings.at(-1)!;
		expect(band.stands).toBe(value < low ? 'below' : value > high ? 'above' : 'within');
	});

	it('gives none for what the customer was asked', () => {
		const asked = combi.checks.find(({ way }) => way === 'ask')!;
		const state = does(callout, [check(asked.id), judge]);
		expect(soundBands(combi, state, table)).toEqual([]);
	});

	it('says nothing of the fault: it is the same whichever hides', () => {
		const bands = combi.faults.slice(0, 3).map(({ id: fault }) => {
			const state = does(calloutsWith(fault, 1)[0], [demand, check('measure-tap-temperature'), judge]);
			return soundBands(combi, state, table).map(({ check: id, says }) => `${id}: ${says}`);
		});
		expect(bands[0].length).toBeGreaterThan(1);
		for (const band of bands) expect(band).toEqual(bands[0]);
	});
});
