import { expect, it } from 'vitest';
import { windingOhm } from '#shared/physics/circuit.ts';
import { withinShare } from './within.ts';

it('a copper winding has the resistance of its temperature', () => {
	// IEC 60028 coefficient 0.00393 per K (from memory): 1.236 times at 80 degC; 0.2 %.
	withinShare(windingOhm(100, 80), 123.6, 0.002, 'ohm at 80 degC');
	expect(windingOhm(100, 20)).toBe(100);
});
