import type { Difference, DifferenceKind } from '#shared/review/refresher/difference.ts';

/** The differences of one kind that are only here, or only on a known one; what would mislead most stays first. */
export function ofKind(list: readonly Difference[], kind: DifferenceKind, side: Difference['side']): Difference[] {
	return list.filter((one) => one.kind === kind && one.side === side);
}

/** What follows the name of a difference in its sentence, mark and all: `: The three-way valve ...` after `Diverter`. */
export function afterName({ name, says }: Difference): string {
	return says.startsWith(name) ? says.slice(name.length) : `: ${says}`;
}
