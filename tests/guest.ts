import { vi } from 'vitest';
import type { Action } from '#shared/callout/action.ts';
import { learnerOrGuest } from '$lib/server/accounts/index.ts';
import { closeDatabase } from '$lib/server/database/open.ts';
import { Visitor } from './visitor.ts';

/** A visitor of a running server who already is a guest of its data folder; `learnerId` is known to the test only. */
export async function guestOf(folder: string, address: string): Promise<{ visitor: Visitor; learnerId: string }> {
	const visitor = new Visitor(address);
	vi.stubEnv('PROVEWELL_DATA', folder);
	try {
		const { id } = await learnerOrGuest({
			url: new URL(address),
			locals: { learner: null },
			cookies: {
				get: (name) => visitor.cookies.get(name),
				set: (name, value) => void visitor.cookies.set(name, value),
				delete: (name) => void visitor.cookies.delete(name)
			}
		});
		return { visitor, learnerId: id };
	} finally {
		closeDatabase();
		vi.unstubAllEnvs();
	}
}

/** An action as the pages' forms send it. */
export function formOf(action: Action, seq: number): [string, string][] {
	const single = Object.entries(action).filter((field): field is [string, string] => typeof field[1] === 'string');
	const suspects = action.kind === 'predict' ? action.expects : [];
	return [...single, ['seq', String(seq)], ...suspects.flatMap((one) => Object.entries(one) as [string, string][])];
}
