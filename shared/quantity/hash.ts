/** The name of a content: equal content has an equal hash, whatever order its keys were written in. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/**
 * SHA-256 of the canonical JSON of a value.
 * @param value plain data: null, booleans, finite numbers, text, lists, plain objects
 * @returns 64 hexadecimal digits
 * @throws TypeError if the value holds anything that JSON does not carry faithfully
 * @see FIPS 180-4 for the hash; checked in tests/core/quantity/content-hash.test.ts
 */
export function contentHash(value: unknown): string {
	return bytesToHex(sha256(utf8ToBytes(canonicalJson(value))));
}

/**
 * JSON without spaces, keys sorted by code unit, members that are undefined left out.
 * @throws TypeError if the value holds anything that JSON does not carry faithfully
 */
export function canonicalJson(value: unknown): string {
	if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
	if (typeof value === 'number') {
		if (!Number.isFinite(value)) throw new TypeError(`cannot hash the number ${value}`);
		return JSON.stringify(value);
	}
	if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
	if (typeof value === 'object' && isPlain(value)) {
		const members = Object.entries(value)
			.filter(([, member]) => member !== undefined)
			.sort(([one], [other]) => (one < other ? -1 : 1))
			.map(([key, member]) => `${JSON.stringify(key)}:${canonicalJson(member)}`);
		return `{${members.join(',')}}`;
	}
	throw new TypeError(`cannot hash ${typeof value === 'object' ? 'an object that is not plain data' : `a value of type ${typeof value}`}`);
}

function isPlain(value: object): value is Record<string, unknown> {
	const prototype: unknown = Object.getPrototypeOf(value);
	return prototype === Object.prototype || prototype === null;
}
