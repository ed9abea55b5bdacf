/** The last thing that a sitter did, in words. */
import type { SittingEventRow, SittingRow } from '../database/schema.ts';
import type { BegunItem } from './rows.ts';

export interface Last {
	readonly says: string;
	/** [ms since 1970] */
	readonly at: number;
}

/** Besides `second-seat`, which is not the sitter's doing as far as anybody knows. */
const seats: Partial<Record<SittingEventRow['kind'], string>> = { 'took-seat': 'Went on in another place' };
const endings = { 'handed-in': 'Handed in', time: 'The time ran out', assessor: 'Closed by an assessor' } as const;

/** Where several came at once, the one that was later in the order of things: begun, opened, done, over. */
export function lastOf(
	row: Pick<SittingRow, 'started' | 'ended' | 'endedBy'>,
	items: readonly BegunItem[],
	events: readonly Pick<SittingEventRow, 'kind' | 'at'>[],
	{ did }: { did(attempt: string): string | null }
): Last {
	if (row.ended !== null) return { says: endings[row.endedBy ?? 'time'], at: row.ended.getTime() };
	const all: Last[] = [
		{ says: 'Began', at: row.started.getTime() },
		...events.flatMap(({ kind, at }) => (seats[kind] ? [{ says: seats[kind], at: at.getTime() }] : [])),
		...items.map(({ slot, kind, began }) => ({ says: `Opened item ${slot + 1}, a ${kind}`, at: began })),
		...items.flatMap((item) =>
			item.lastAt === null ? [] : [{ says: did(item.id) ?? `Went on with item ${item.slot + 1}`, at: item.lastAt }]
		),
		...items.flatMap(({ kind, slot, ended }) =>
			kind === 'drill' && ended !== null ? [{ says: `Answered item ${slot + 1}, a drill`, at: ended }] : []
		)
	];
	return all.reduce((latest, one) => (one.at >= latest.at ? one : latest));
}
