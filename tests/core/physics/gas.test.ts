import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boreMm2, injectorFlowM3h, pressureLossMbar, wobbe } from '#shared/physics/gas.ts';

const mbar = fc.double({ min: 0.1, max: 50, noNaN: true });
const density = fc.double({ min: 0.4, max: 2.2, noNaN: true });

describe('injector', () => {
	it('passes heat by area, by the root of the pressure and by the Wobbe number, and by nothing else', () => {
		fc.assert(
			fc.property(
				mbar,
				density,
				fc.double({ min: 20, max: 130, noNaN: true }),
				fc.double({ min: 0.2, max: 20, noNaN: true }),
				(p, d, h, area) => {
					const heat = injectorFlowM3h(area, p, d, 0.9) * h;
					const unit = injectorFlowM3h(1, 1, 1, 0.9);
					expect(Math.abs(heat / (unit * area * Math.sqrt(p) * wobbe(h, d)) - 1)).toBeLessThan(1e-12);
				}
			)
		);
	});

	it('passes nothing without pressure or when choked', () => {
		expect(injectorFlowM3h(1, 0, 0.555, 0.9)).toBe(0);
		expect(injectorFlowM3h(1, -2, 0.555, 0.9)).toBe(0);
		expect(injectorFlowM3h(0, 20, 0.555, 0.9)).toBe(0);
	});

	it('has four times the area at twice the bore', () => {
		expect(boreMm2(2.4) / boreMm2(1.2)).toBeCloseTo(4, 12);
	});
});

describe('pipework', () => {
	it('loses the known pressure at the known flow, and by its square elsewhere', () => {
		fc.assert(
			fc.property(
				mbar,
				fc.double({ min: 0.1, max: 6, noNaN: true }),
				fc.double({ min: 0, max: 3, noNaN: true }),
				(loss, nominal, ratio) => {
					expect(pressureLossMbar(nominal, loss, nominal)).toBeCloseTo(loss, 12);
					expect(pressureLossMbar(ratio * nominal, loss, nominal)).toBeCloseTo(loss * ratio * ratio, 8);
				}
			)
		);
	});
});
