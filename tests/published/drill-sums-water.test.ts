import { describe, it } from 'vitest';
import { solved } from './solved-sum.ts';
import { within, withinShare } from './within.ts';

describe('flow and pressure', () => {
	it('a Kv gives the worked examples', () => {
		// EN 1267 and IEC 60534-1 (definition from memory); computed: Kv 1.6 at 0.1 bar is 8.43 l/min, Kv 1 at 0.04 bar 0.200 m3/h. 0.1 %.
		withinShare(solved('valve-kv', { kv: 1.6, difference: 0.1 }), 8.43, 0.001, 'l/min');
		withinShare(solved('valve-kv', { kv: 1, difference: 0.04 }), 200 / 60, 0.001, 'l/min');
	});

	it('a loss goes with the square of the flow', () => {
		// From memory, any hydraulics text: twice the flow, four times the loss. By arithmetic, 1e-9.
		withinShare(solved('drop-with-flow', { loss: 100, at: 8, flow: 16 }), 400, 1e-9, 'mbar');
		withinShare(solved('drop-with-flow', { loss: 100, at: 8, flow: 4 }), 25, 1e-9, 'mbar');
	});

	it('valves in series pass what 1/Kv2 = 1/Kv1 2 + 1/Kv2 2 gives', () => {
		// From memory, texts on control valves: two of Kv 1.6 in series are one of 1.131. A Kv of 1.6 loses 100 mbar at 8.433 l/min (above).
		// At 250 mbar one of Kv 1.131 passes 1.131 x 0.5 m3/h = 9.43 l/min, by hand. 0.1 %.
		withinShare(solved('two-in-series', { at: 8.433, valve: 100, strainer: 100, pressure: 250 }), 9.43, 0.001, 'l/min');
	});

	it('valves side by side pass as much as one whose Kv is their sum', () => {
		// From memory, same texts: Kv 1 and Kv 2 together pass 3 m3/h, 50 l/min, at 1 bar. Alone they pass 16.667 and 33.333 l/min. 0.01 %.
		withinShare(solved('two-branches', { pressure: 1000, one: 16.667, other: 33.333, flow: 50 }), 1000, 1e-4, 'mbar');
		withinShare(solved('two-branches', { pressure: 1000, one: 16.667, other: 33.333, flow: 25 }), 250, 1e-4, 'mbar');
	});

	it('a metre of water is 9.804 kPa', () => {
		// Computed, density of the IAPWS library at 10 degC and standard gravity: 1 m is 9.804 kPa and 1 bar is 10.2 m. 0.1 %.
		withinShare(solved('static-head', { cistern: 3, head: 2, metre: 0.098 }), 0.09804, 0.001, 'bar');
		withinShare(solved('static-head', { cistern: 12.2, head: 2, metre: 0.098 }), 1, 0.001, 'bar');
	});
});

describe('expansion', () => {
	it('pushes 2.52 litres out of 150 warmed from 10 to 60 degC', () => {
		// Computed with the IAPWS library: densities 999.702 and 983.211, free expansion of 1.677 %, 2.52 l. 1 %: densities to one decimal.
		withinShare(solved('expansion-volume', { litres: 150, cold: 10, hot: 60, before: 999.7, after: 983.2 }), 2.52, 0.01, 'l');
		withinShare(solved('expansion-volume', { litres: 100, cold: 10, hot: 80, before: 999.7, after: 971.8 }), 2.871, 0.01, 'l');
	});

	it('needs the vessel of the standard', () => {
		// Form of BS 7074-1 (from memory); computed: 100 l at e 0.0291 between 2 and 4 bar absolute need 5.82 l. 0.5 %.
		const vessel = solved('vessel-size', { litres: 100, share: 2.91, cold: 2 - 1.013, hot: 4 - 1.013, air: 1.013 });
		within(vessel, 5.82, 0.03, 'l');
	});
});
