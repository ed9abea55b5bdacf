/**
 * A 32-bit hash of text, to mix seeds; not for secrets and not for identity of content.
 *
 * Each code unit is multiplied in, rotated and spread (the multiply-rotate scheme published as MurmurHash3), then finished so that
 * one changed bit of the text changes each bit of the result with a chance near one half.
 * @param text any text
 * @param salt whole number that picks one of many unlike hashes
 * @returns whole number of 32 bits, signed
 */
export function hash32(text: string, salt: number): number {
	let hash = salt | 0;
	for (let i = 0; i < text.length; i++) {
		let unit = Math.imul(text.charCodeAt(i), 0xcc9e2d51);
		unit = (unit << 15) | (unit >>> 17);
		hash ^= Math.imul(unit, 0x1b873593);
		hash = (hash << 13) | (hash >>> 19);
		hash = (Math.imul(hash, 5) + 0xe6546b64) | 0;
	}
	hash ^= text.length;
	hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
	hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
	return hash ^ (hash >>> 16);
}
