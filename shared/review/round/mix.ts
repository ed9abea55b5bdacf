/** An order in which no two of a kind follow each other. */

/**
 * Orders things so that no two of a kind are next to each other, keeping as near to the order given as that allows: at each place stands
 * the first of the rest after which the rest can still be ordered.
 * @param kindOf what must not follow itself
 * @param feelOf what had better not follow itself, where anything else can stand there
 * @returns null where there is no such order
 */
export function mixed<T>(things: readonly T[], kindOf: (thing: T) => string, feelOf = kindOf): T[] | null {
	const rest = [...things];
	const ordered: T[] = [];
	while (rest.length > 0) {
		const last = ordered.at(-1);
		const can = rest.flatMap((thing, index) =>
			(last === undefined || kindOf(thing) !== kindOf(last)) && canFollow(rest.toSpliced(index, 1).map(kindOf), kindOf(thing))
				? [index]
				: []
		);
		if (can.length === 0) return null;
		const next = can.find((index) => last === undefined || feelOf(rest[index]) !== feelOf(last)) ?? can[0];
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
