import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mixed } from '#shared/review/round/mix.ts';

const anyKinds = fc.array(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 9 });
const own = (kind: string) => kind;
const isMixed = (kinds: readonly string[]) => kinds.every((kind, index) => kind !== kinds[index - 1]);

/** Every order that there is, by trying. */
function orders(kinds: readonly string[]): string[][] {
	if (kinds.length === 0) return [[]];
	return [...new Set(kinds)].flatMap((kind) => orders(kinds.toSpliced(kinds.indexOf(kind), 1)).map((rest) => [kind, ...rest]));
}

describe('an order in which no kind follows itself', () => {
	it('holds the same things, and is there whenever there is one', () => {
		fc.assert(
			fc.property(anyKinds, (kinds) => {
				const order = mixed(kinds, own);
				if (order === null) expect(orders(kinds.slice(0, 9)).some(isMixed)).toBe(false);
				else {
					expect(isMixed(order)).toBe(true);
					expect(order.toSorted()).toEqual(kinds.toSorted());
				}
			}),
			{ numRuns: 200 }
		);
	});

	it('leaves what is in order already as it is', () => {
		fc.assert(
			fc.property(anyKinds.filter(isMixed), (kinds) => {
				expect(mixed(kinds, own)).toEqual(kinds);
			})
		);
	});

	it('begins with the first of them unless that leaves no way on', () => {
		expect(mixed(['b', 'a', 'a'], own)).toEqual(['a', 'b', 'a']);
		expect(mixed(['b', 'a', 'a', 'b'], own)).toEqual(['b', 'a', 'b', 'a']);
		expect(mixed(['a', 'a'], own)).toBeNull();
	});

	it('sets apart what only feels alike as far as there is anything to set between', () => {
		const feel = (kind: string) => (kind === 'c' ? kind : 'sums');
		expect(mixed(['a', 'b', 'c', 'd', 'c'], own, feel)).toEqual(['a', 'c', 'b', 'c', 'd']);
		expect(mixed(['a', 'b', 'd'], own, feel)).toEqual(['a', 'b', 'd']);
		expect(mixed(['a', 'a', 'b', 'c'], own, feel)!.filter((kind) => kind === 'a')).toHaveLength(2);
	});
});
