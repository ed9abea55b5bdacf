/** What a path has opened or worked on, and so what must be checked before leaving. */
import type { Pack, Remedy } from '#shared/scenario/pack.ts';
import { shownCheck } from './setting.ts';
import type { CalloutState, Reading } from './state.ts';

export type Disturbance = Remedy['disturbs'][number];

export interface Disturbed {
	readonly event: number;
	readonly kinds: readonly Disturbance[];
}

/** Each event that disturbed something: remedies done, and checks that opened what they looked into. */
export function disturbed(pack: Pack, { events }: Pick<CalloutState, 'events'>): Disturbed[] {
	return events.flatMap(({ index, action, breaches }) => {
		if (breaches.length > 0) return [];
		const work =
			action.kind === 'remedy'
				? pack.remedies.find(({ id }) => id === action.remedy)
				: action.kind === 'check'
					? pack.checks.find(({ id }) => id === action.check)
					: undefined;
		return work && work.disturbs.length > 0 ? [{ event: index, kinds: work.disturbs }] : [];
	});
}

/** Whether the instrument showed that there was nothing to read: such a reading is no check of the work. */
function showsNothing(pack: Pack, { check, value, text }: Reading): boolean {
	const instrument = pack.checks.find(({ id }) => id === check)?.instrument;
	return value === Infinity && pack.instruments.some(({ id, beyond }) => id === instrument && beyond === text);
}

/** Ids of checks that must follow what was disturbed in these ways and have not been taken since, each once. */
export function checksDue(
	pack: Pack,
	state: Pick<CalloutState, 'events' | 'readings'>,
	of: (kind: Disturbance) => boolean = () => true
): string[] {
	const taken = state.readings.filter((reading) => !showsNothing(pack, reading));
	const due = disturbed(pack, state).flatMap(({ event, kinds }) =>
		kinds
			.filter(of)
			.flatMap((kind) => pack.rules.after[kind] ?? [])
			.filter((check) => !taken.some((reading) => reading.event > event && shownCheck(reading) === check))
	);
	return [...new Set(due)];
}
