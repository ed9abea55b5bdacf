import { expect } from 'vitest';

/** The actual value lies within a share of the expected one; the message gives both. */
export function withinShare(actual: number, expected: number, share: number, what: string): void {
	const off = Math.abs(actual / expected - 1);
	expect(off, `${what}: ${actual}, expected ${expected} within ${share * 100} %`).toBeLessThanOrEqual(share);
}

/** The actual value lies within an absolute distance of the expected one; the message gives both. */
export function within(actual: number, expected: number, distance: number, what: string): void {
	expect(Math.abs(actual - expected), `${what}: ${actual}, expected ${expected} within ${distance}`).toBeLessThanOrEqual(distance);
}
