import { describe, expect, it } from 'vitest';
import { normalBelow, normalDensity } from '#shared/diagnosis/normal.ts';

describe('the normal distribution', () => {
	it('agrees with its density summed up numerically', () => {
		const step = 1e-3;
		let sum = 0;
		for (let z = -8; z < 4; z += step) {
			sum += (step * (normalDensity(z, 0, 1) + 4 * normalDensity(z + step / 2, 0, 1) + normalDensity(z + step, 0, 1))) / 6;
			if (Math.round(z / step) % 250 === 0) expect(normalBelow(z + step)).toBeCloseTo(sum, 6);
		}
	});

	it('is even about nought and ends at 0 and 1', () => {
		for (const z of [0, 0.3, 1, 2.5, 6]) expect(normalBelow(z) + normalBelow(-z)).toBeCloseTo(1, 7);
		expect(normalBelow(-Infinity)).toBe(0);
		expect(normalBelow(Infinity)).toBe(1);
	});
});
