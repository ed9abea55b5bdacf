/** What the page asks for that plays an item of a sitting again, one action at a time. */
import { answerWords } from '$lib/practice/answer-words.ts';
import { replay } from '#shared/callout/replay.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import type { CalloutView } from '#shared/callout/view.ts';
import type { Judged, Question } from '#shared/review/drills/drill.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Database } from '../database/open.ts';
import { evidenceFor } from '../evidence/evidence.ts';
import { itemsOf } from '../papers/kept-paper.ts';
import { inAMoment } from '../patience.ts';
import { judgeStored } from '../practice/made-drills.ts';
import { drillWeigher } from '../weighing/weigher.ts';
import type { Live } from '../callouts/live.ts';
import { itemName } from './item-names.ts';
import { sheetAt, type SheetAt } from './moderation.ts';
import type { Played } from './played.ts';
import { CannotMark, type Results } from './results.ts';

/** Faults held below this are not worth a line. */
const shownFrom = 0.02;

export interface Suspected {
	readonly says: string;
	/** 0 to 1. */
	readonly chance: number;
	/** Whether it is the fault that was hidden. */
	readonly isFault: boolean;
}

/** A remedy that cures several faults: what the bill holds against it is what they come to together. */
export interface Cures {
	readonly remedy: string;
	/** 0 to 1, when it was done. */
	readonly chance: number;
	readonly faults: readonly Omit<Suspected, 'isFault'>[];
}

export type Replayed =
	| {
			readonly kind: 'callout';
			/** Actions done by then, and in all. */
			readonly at: number;
			readonly of: number;
			readonly view: CalloutView;
			readonly fault: string;
			/** What the evidence bore then, the likeliest first; null while the family's evidence table is being made. */
			readonly suspected: readonly Suspected[] | null;
			/** Of the action done last and of the next. */
			readonly cures: readonly Cures[];
	  }
	| {
			readonly kind: 'drill';
			readonly question: Question;
			readonly said: readonly string[];
			readonly judged: Judged;
			readonly seconds: number;
	  }
	| { readonly kind: 'untried' }
	/** This version makes another appliance, or asks another question. */
	| { readonly kind: 'over' };

export interface ReplayPage {
	readonly title: string;
	readonly member: string;
	readonly name: string;
	readonly slot: number;
	readonly replayed: Replayed;
}

async function suspected(
	{ callout, state, attempt }: Live,
	count: number
): Promise<Pick<Extract<Replayed, { kind: 'callout' }>, 'suspected' | 'cures'>> {
	const { pack, fault } = callout;
	const table = await inAMoment(evidenceFor(pack));
	if (!table) return { suspected: null, cures: [] };
	const believedAt = (at: number) => {
		const actions = state.events.slice(0, at).map(({ action }) => action);
		return drillWeigher.weigh(pack, table, 'believed', { seed: attempt.seed, fault: attempt.fault, actions });
	};
	const believed = await believedAt(count);
	const cures: Cures[] = [];
	for (const event of [count - 1, count]) {
		const done = state.remedies.find((one) => one.event === event);
		const remedy = done && pack.remedies.find(({ id }) => id === done.remedy);
		// As it was held before it was done, by which the bill judges it.
		if (remedy) cures.push(...curesOf(pack, remedy, event === count ? believed : await believedAt(event)));
	}
	const all = pack.faults
		.map(({ id, says }) => ({ says, chance: believed[id]!, isFault: id === fault?.id }))
		.filter(({ chance, isFault }) => chance >= shownFrom || isFault)
		.sort((a, b) => b.chance - a.chance);
	return { suspected: all, cures };
}

/** Empty where one fault alone is worth a line: then the table says it. */
function curesOf(pack: Pack, remedy: Pack['remedies'][number], believed: Readonly<Record<string, number>>): Cures[] {
	const cured = pack.faults.filter((fault) => fault.cured.includes(remedy.id)).map(({ id, says }) => ({ says, chance: believed[id]! }));
	const faults = cured.filter(({ chance }) => chance >= shownFrom).sort((a, b) => b.chance - a.chance);
	if (faults.length < 2) return [];
	return [{ remedy: remedy.name, chance: cured.reduce((sum, { chance }) => sum + chance, 0), faults }];
}

/**
 * @param wanted  how many actions are to be done by then; all of them where left out, or where it is no such number
 * @returns null where there is no such item on a sheet of the assessor's own
 * @throws WeighingFailed, or what the making of an evidence table failed with
 */
export async function replayPage(
	db: Database,
	{ played, results }: { readonly played: Played; readonly results: Results },
	assessorId: string,
	at: SheetAt,
	slot: number,
	wanted: number | null
): Promise<ReplayPage | null> {
	const sheet = sheetAt(db, assessorId, at)?.sheet;
	const result = sheet?.results[slot];
	if (!sheet || !result) return null;
	const name = itemName(itemsOf(db, sheet.paper.id, sheet.sitting.variant)[slot]!);
	const page = (replayed: Replayed): ReplayPage => ({ title: sheet.paper.title, member: sheet.member.name, name, slot, replayed });
	if (result.kind === 'untried') return page({ kind: 'untried' });
	if (result.kind === 'drill') return page(await drillAgain(played, results, at.sitting, slot));
	const one = played.callout(at.sitting, slot);
	if (!one) return page({ kind: 'over' });
	const of = one.state.events.length;
	const count = wanted !== null && Number.isInteger(wanted) && wanted >= 0 && wanted <= of ? wanted : of;
	const actions = one.state.events.slice(0, count).map(({ action }) => action);
	const view = viewOf(one.callout, replay(one.callout, actions));
	const fault = one.callout.fault?.says ?? 'none';
	return page({ kind: 'callout', at: count, of, view, fault, ...(await suspected(one, count)) });
}

async function drillAgain(played: Played, results: Results, sittingId: string, slot: number): Promise<Replayed> {
	const row = played.drill(sittingId, slot);
	if (!row) return { kind: 'over' };
	try {
		const drill = await results.drillOf(row);
		const stored = await judgeStored(drill, row);
		if (!stored || 'refused' in stored.judged) return { kind: 'over' };
		const { answer, seconds, judged } = stored;
		return { kind: 'drill', question: drill.question, said: answerWords(answer, drill.question.asking), judged, seconds };
	} catch (error) {
		if (error instanceof CannotMark) return { kind: 'over' };
		throw error;
	}
}
