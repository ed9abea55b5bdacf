import { describe, expect, it } from 'vitest';
import { heaterOhm, loadA, mainsV, windingOhm } from '#shared/physics/circuit.ts';
import { within, withinShare } from './within.ts';

describe('mains', () => {
	it('has the limits of the supply in the United Kingdom', () => {
		// Electricity Safety, Quality and Continuity Regulations 2002, reg. 27 (from memory): 230 V +10 % -6 %.
		within(mainsV.from, 230 * 0.94, 1e-9, 'lower');
		within(mainsV.to, 230 * 1.1, 1e-9, 'upper');
		expect(mainsV.nominal).toBe(230);
	});
});

describe('loads', () => {
	it('has the resistance and current of an immersion heater', () => {
		// Arithmetic: 3 kW at 230 V is 17.6 ohm and 13.0 A; 0.5 %.
		withinShare(heaterOhm(3000, 230), 17.6, 0.005, 'ohm');
		withinShare(loadA(3000, 230), 13.0, 0.005, 'A');
	});

	it('has the resistance of a warm winding', () => {
		// IEC 60028 coefficient 0.00393 per K (from memory): 1.236 times at 80 degC; 0.2 %.
		withinShare(windingOhm(100, 80), 123.6, 0.002, 'ohm at 80 degC');
		expect(windingOhm(100, 20)).toBe(100);
	});
});
