import { describe, expect, it } from 'vitest';
import { noticedNow, noticedWords } from '$lib/bench/noticed';

type View = Parameters<typeof noticedNow>[0];
const reading = (over: object) => ({ name: 'Fan runs', text: 'runs', event: 0, demand: 'tap', noticed: true, ...over });
const view = (over: object) =>
	({ demand: 'tap', events: [{ kind: 'demand', index: 0 }], readings: [reading({})], ...over }) as unknown as View;

it('says once what the name of the check says already', () => {
	expect(noticedWords({ name: 'Fan runs', text: 'runs' })).toBe('fan runs');
	expect(noticedWords({ name: 'Fan runs', text: 'silent' })).toBe('fan runs: silent');
	expect(noticedWords({ name: 'Tap by hand', text: 'cold' })).toBe('tap by hand: cold');
});

describe('what was noticed is said', () => {
	it('while the demand that it was noticed under stands', () => {
		expect(noticedNow(view({}))).toEqual(['fan runs']);
		expect(
			noticedNow(
				view({
					events: [
						{ kind: 'demand', index: 0 },
						{ kind: 'check', index: 1 }
					]
				})
			)
		).toEqual(['fan runs']);
	});

	it('without what was taken by a check', () => {
		const taken = reading({ name: 'Tap temperature', text: '41.2', event: 1, noticed: false });
		expect(noticedNow(view({ readings: [reading({}), taken] }))).toEqual(['fan runs']);
	});

	it('no longer once it is run otherwise, switched off or changed', () => {
		expect(
			noticedNow(
				view({
					events: [
						{ kind: 'demand', index: 0 },
						{ kind: 'demand', index: 1 }
					]
				})
			)
		).toEqual([]);
		expect(noticedNow(view({ demand: 'none' }))).toEqual([]);
		for (const kind of ['remedy', 'prove']) {
			expect(
				noticedNow(
					view({
						events: [
							{ kind: 'demand', index: 0 },
							{ kind, index: 1 }
						]
					})
				)
			).toEqual([]);
		}
	});
});
