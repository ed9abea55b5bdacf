/** Items of sittings played again, to be shown beside their marks: whose they are matters to nobody here, since the sheet is asked for first. */
import { and, eq } from 'drizzle-orm';
import type { CalloutView, ReadingLine } from '#shared/callout/view.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { liveAttemptsIn, type Live } from '../callouts/live.ts';
import { attemptsIn } from '../database/attempts.ts';
import { drillsIn } from '../database/drills.ts';
import type { Database } from '../database/open.ts';
import { sittingItem, type DrillRow } from '../database/schema.ts';

/** One action of a path, with what it brought. */
export interface PathEvent {
	readonly index: number;
	/** Clock of the callout before it, and how long it took. */
	readonly minute: number;
	readonly minutes: number;
	readonly spent: number;
	readonly did: string;
	readonly says: readonly string[];
	readonly breaches: readonly { readonly id: string; readonly says: string }[];
	readonly readings: readonly Pick<ReadingLine, 'name' | 'text' | 'unit' | 'demand' | 'setting'>[];
	/** When it was done, by the server's clock. */
	readonly at: Date;
}

/** The path of a callout, as a mark sheet shows it. */
export interface PathShown {
	readonly complaint: string;
	readonly household: string;
	/** The hidden fault, in words. */
	readonly fault: string;
	readonly rules: string;
	readonly currency: string;
	readonly minutes: number;
	readonly spent: number;
	readonly ended: CalloutView['ended'];
	readonly events: readonly PathEvent[];
}

export type Played = ReturnType<typeof playedIn>;

/** @param known  the packs of today by family */
export function playedIn(db: Database, known: ReadonlyMap<string, Pack>) {
	const attempts = attemptsIn(db);
	const drills = drillsIn(db);
	const live = liveAttemptsIn(db, known);

	const begun = (sittingId: string, slot: number) =>
		db
			.select()
			.from(sittingItem)
			.where(and(eq(sittingItem.sitting, sittingId), eq(sittingItem.slot, slot)))
			.get();

	return {
		/** The callout of a slot where it led; null where none was begun, or this version can no longer play it. */
		callout(sittingId: string, slot: number): Live | null {
			const id = begun(sittingId, slot)?.attempt ?? null;
			const row = id === null ? undefined : attempts.find(id);
			const one = row && live.bringUp(row.id, row.learner);
			return one?.outcome === 'live' ? one : null;
		},

		drill(sittingId: string, slot: number): DrillRow | null {
			const id = begun(sittingId, slot)?.drill ?? null;
			return (id === null ? undefined : drills.find(id)) ?? null;
		},

		pathOf({ attempt, callout, state }: Live): PathShown {
			const view = viewOf(callout, state);
			const times = attempts.actions(attempt.id).map(({ at }) => at);
			return {
				complaint: view.complaint,
				household: view.household,
				fault: callout.fault?.says ?? 'none',
				rules: view.rules.name,
				currency: view.rules.currency,
				minutes: view.minutes,
				spent: view.spent,
				ended: view.ended,
				events: view.events.map(({ index, minute, minutes, spent, did, says, breaches }) => ({
					index,
					minute,
					minutes,
					spent,
					did,
					says,
					breaches: breaches.map(({ id, says }) => ({ id, says })),
					readings: view.readings
						.filter(({ event }) => event === index)
						.map(({ name, text, unit, demand, setting }) => ({ name, text, unit, demand, setting })),
					at: times[index]!
				}))
			};
		}
	};
}
