/** Where the leads of a meter go for a check. */
import type { Check, Terminals } from '#shared/scenario/schema.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Ground } from '../../drill.ts';

export type WrongPair = Terminals['others'][number];
export type WithTerminals = Check & { readonly terminals: Terminals };

/**
 * Pairs that truly read something else. One that reads the very quantity, such as live to earth in place of live to neutral, is no wrong
 * answer to choose from.
 */
export const wrongPairs = ({ reads, terminals }: WithTerminals): WrongPair[] =>
	terminals.others.filter((pair) => pair.reads !== reads || pair.less !== undefined || pair.times !== 1);

/** Checks with at least so many wrong pairs to offer. */
export function checksWithPairs({ checks }: Pack, least: number): WithTerminals[] {
	return checks
		.filter((check): check is WithTerminals => check.terminals !== undefined)
		.filter((check) => wrongPairs(check).length >= least);
}

/** With fewer checks than this the same question would come back each time. */
const fewestChecks = 3;

export const hasPairs =
	(least: number) =>
	({ pack }: Ground): boolean =>
		pack !== null && checksWithPairs(pack, least).length >= fewestChecks;

export function pairWords({ terminals }: WithTerminals, [a, b]: readonly [string, string]): string {
	const name = (id: string) => terminals.points.find((point) => point.id === id)?.name ?? id;
	const second = name(b);
	return `${name(a)} to ${second.charAt(0).toLowerCase()}${second.slice(1)}`;
}

export const pairId = ([a, b]: readonly [string, string]): string => `${a}.${b}`;

/** What somebody measures who puts the leads there. */
export function pairMisconception(pack: Pack, check: WithTerminals, { reads, less, times }: WrongPair): string {
	if (reads === 'nothing') return 'Between these two there is nothing to read, whatever the fault: a sound circuit looks dead.';
	if (reads === 'open') return 'Nothing joins these two: it reads open whatever the fault, and a sound part looks broken.';
	if (less !== undefined)
		return 'It shows the difference between two terminals that are each driven, and does not say which of them is live.';
	if (reads === check.reads) return `That takes in more than one: it reads ${times === 2 ? 'twice' : `${times} times`} what it should.`;
	const other = pack.checks.find((one) => one.reads === reads && one.id !== check.id);
	return other ? `That is another check: "${other.name}".` : 'That reads something else.';
}
