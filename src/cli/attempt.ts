/** An attempt on disk: `{ family, seed, fault?, actions }`, played again from its callout. */
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { action, type Action } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout, NoComplaint } from '#shared/callout/make.ts';
import { RefusedAction, replay } from '#shared/callout/replay.ts';
import { UnknownFault } from '#shared/callout/sample-machine.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { mostSeed } from '#shared/quantity/random.ts';
import { BadInput } from './bad-input.ts';
import type { Packs } from './options.ts';

const attempt = z.strictObject({
	family: z.string(),
	seed: z.int().min(0).max(mostSeed),
	fault: z.string().nullish(),
	actions: z.array(action).max(1000)
});

export interface Attempt {
	readonly callout: Callout;
	readonly actions: readonly Action[];
	readonly state: CalloutState;
}

/** @throws BadInput saying what in the file cannot be used */
export function attemptFrom(path: string, packs: Packs): Attempt {
	const { family, seed, fault, actions } = parsed(path);
	const pack = packs.get(family);
	if (!pack) throw new BadInput(`--file ${path}: family`, `one of ${[...packs.keys()].join(', ')}`, family);
	try {
		const callout = makeCallout(pack, seed, fault ?? undefined);
		return { callout, actions, state: replay(callout, actions) };
	} catch (error) {
		if (error instanceof UnknownFault) throw new BadInput(`--file ${path}: fault`, `one of ${error.known.join(', ')}`, error.fault);
		if (error instanceof NoComplaint)
			throw new BadInput(`--file ${path}: fault`, `one that somebody would complain of (${error.message})`, fault ?? 'any');
		if (error instanceof RefusedAction) {
			throw new BadInput(
				`--file ${path}: actions[${error.index}]`,
				`an action that can be done there (${error.refused})`,
				JSON.stringify(error.action)
			);
		}
		throw error;
	}
}

function parsed(path: string): z.infer<typeof attempt> {
	let raw: unknown;
	try {
		raw = JSON.parse(readFileSync(path, 'utf8'));
	} catch (error) {
		throw new BadInput('--file', `a readable JSON file (${error instanceof Error ? error.message : String(error)})`, path);
	}
	const result = attempt.safeParse(raw);
	if (result.success) return result.data;
	const [issue] = result.error.issues;
	const key = issue!.path.map(String).join('.');
	const came = issue!.path.reduce<unknown>((value, part) => (value as Record<PropertyKey, unknown> | undefined)?.[part], raw);
	throw new BadInput(
		`--file ${path}: ${key || 'content'}`,
		`{ family, seed, fault?, actions } (${issue!.message})`,
		came === undefined ? undefined : JSON.stringify(came)
	);
}
