import { describe, expect, it } from 'vitest';
import { decodeEvidence, encodeEvidence } from '#shared/diagnosis/store.ts';
import { smallTable } from './small-pack.ts';

describe('the evidence table as bytes', () => {
	it('comes back to the last bit, infinite values included', () => {
		const table = smallTable();
		expect(decodeEvidence(encodeEvidence(table), 'small')).toEqual(table);
	});

	it('comes back from bytes that lie anywhere in a larger buffer', () => {
		const bytes = encodeEvidence(smallTable());
		const larger = Buffer.alloc(bytes.length + 3);
		larger.set(bytes, 3);
		expect(decodeEvidence(larger.subarray(3), 'small')).toEqual(smallTable());
	});

	it('is refused when it is torn, damaged, of another pack, or no table at all', () => {
		const bytes = encodeEvidence(smallTable());
		expect(decodeEvidence(bytes.subarray(0, bytes.length - 8), 'small')).toBeNull();
		expect(decodeEvidence(bytes, 'other')).toBeNull();
		expect(decodeEvidence(new Uint8Array(0), 'small')).toBeNull();
		expect(decodeEvidence(new Uint8Array(64), 'small')).toBeNull();
		for (const at of [9, 40, bytes.length >> 1, bytes.length - 9]) {
			const damaged = bytes.slice();
			damaged[at] ^= 0x40;
			expect(decodeEvidence(damaged, 'small'), `byte ${at}`).toBeNull();
		}
	});
});
