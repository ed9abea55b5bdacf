import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson, contentHash } from '#shared/quantity/hash.ts';

describe('canonical JSON', () => {
	it('sorts keys at every depth, keeps the order of lists and leaves out what is undefined', () => {
		expect(canonicalJson({ b: [2, 1, { d: null, c: 'x' }], a: true, z: undefined })).toBe('{"a":true,"b":[2,1,{"c":"x","d":null}]}');
	});

	it('says what JSON says, once read again', () => {
		fc.assert(
			fc.property(fc.jsonValue(), (value) => {
				expect(JSON.parse(canonicalJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
			})
		);
	});

	it('refuses what JSON would lose', () => {
		for (const bad of [NaN, Infinity, 1n, () => 1, Symbol('x'), new Map(), new Date(0), undefined, [undefined], new Float64Array(2)]) {
			expect(() => canonicalJson(bad)).toThrow(TypeError);
		}
	});
});

describe('content hash', () => {
	it('is SHA-256: published values', () => {
		// From memory, widely published digests of the texts {} and null.
		expect(contentHash({})).toBe('44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a');
		expect(contentHash(null)).toBe('74234e98afe7498fb5daf1f36ac2d78acc339464f950703b8c019892f982b90b');
	});

	it("agrees with the platform's own SHA-256", () => {
		fc.assert(
			fc.property(fc.jsonValue(), (value) => {
				expect(contentHash(value)).toBe(createHash('sha256').update(canonicalJson(value), 'utf8').digest('hex'));
			})
		);
	});

	it('heeds every value and no order of keys', () => {
		expect(contentHash({ a: 1, b: 2 })).toBe(contentHash({ b: 2, a: 1 }));
		const unlike = [{ a: 1 }, { a: 2 }, { a: '1' }, { a: [1] }, { b: 1 }, [{ a: 1 }], { a: { a: 1 } }].map(contentHash);
		expect(new Set(unlike).size).toBe(unlike.length);
	});
});
