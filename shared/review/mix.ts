/** An order in which no two of a kind follow each other. */

/**
 * Orders things so that no two of a kind are next to each other, keeping as near to the order given as that allows: at each place stands
 * the first of the rest after which the rest can still be ordered.
 * @param kindOf what must not follow itself
 * @returns null where there is no such order
 */
export function mixed<T>(things: readonly T[], kindOf: (thing: T) => string): T[] | null {
	const rest = [...things];
	const ordered: T[] = [];
	while (rest.length > 0) {
		const last = ordered.length > 0 ? kindOf(ordered[ordered.length - 1]) : null;
		const next = rest.findIndex((thing, index) => kindOf(thing) !== last && canFollow(rest.toSpliced(index, 1).map(kindOf), kindOf(thing)));
		if (next < 0) return null;
		ordered.push(...rest.splice(next, 1));
	}
	return ordered;
}

/** Whether kinds can be put in such an order after one: none may fill more than every other place, and the last one only the second of each two. */
function canFollow(kinds: readonly string[], last: string): boolean {
	return [...countsOf(kinds)].every(([kind, count]) => count <= (kind === last ? Math.floor : Math.ceil)(kinds.length / 2));
}

function countsOf(kinds: readonly string[]): Map<string, number> {
	const counts = new Map<string, number>();
	for (const kind of kinds) counts.set(kind, (counts.get(kind) ?? 0) + 1);
	return counts;
}
