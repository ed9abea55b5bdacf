/** What the pages of drills ask for. */
import type { Answer, Question } from '#shared/review/drills/drill.ts';
import { drillSkillId } from '#shared/review/skills.ts';
import { database } from '../database/open.ts';
import { isHeldBack } from '../sittings/release.ts';
import type { AnsweredDrill, AskedDrill, FoundDrill, StandingDrill } from './drills.ts';
import { nightWords } from './nights.ts';
import { practice } from './practice.ts';
import type { WayOn } from './rounds.ts';
import { shownOf, type Shown } from './shown.ts';

export interface AnsweredView extends NonNullable<StandingDrill['answered']> {
	readonly shown: Shown | null;
}

export interface DrillView {
	readonly kind: string;
	/** Of its kind. */
	readonly name: string;
	/** Short name of the family that it concerns. */
	readonly family: string | null;
	readonly question: Question;
	/** Null before it is answered, and while what it showed must not be told. */
	readonly answered: AnsweredView | null;
	/** Whether it is answered, and what was said of it is held back. */
	readonly isTaken: boolean;
	/** Where it belongs to a round. */
	readonly round: WayOn | null;
}

/** A kind of drill in the list of them. */
export interface DrillKind {
	readonly id: string;
	readonly name: string;
	/** The night on which it comes back; null before it was tried. */
	readonly back: string | null;
	/** Whether all, some or none of its questions can be asked now, for want of an evidence table. */
	readonly state: 'ready' | 'part' | 'none';
}

export type DrillFound = { readonly outcome: 'standing'; readonly drill: DrillView } | Exclude<FoundDrill, { outcome: 'standing' }>;

export async function findDrill(id: string, learnerId: string, now = Date.now()): Promise<DrillFound> {
	const found = await practice().drills.find(id, learnerId);
	return found.outcome === 'standing' ? { outcome: 'standing', drill: viewOf(found.drill, learnerId, now) } : found;
}

export function answerDrill(id: string, learnerId: string, answer: Answer, now = Date.now()): Promise<AnsweredDrill> {
	return practice().drills.answer(id, learnerId, answer, now);
}

export type Asked = Extract<AskedDrill, { outcome: 'asked' | 'making' }> | { readonly outcome: 'invalid'; readonly says: string };

const unknownKind = 'There is no such kind of drill here.';

/** Why no drill of a kind can be asked, in a sentence; null where one can. */
export const noSuchDrill = (kind: string): string | null => (practice().drills.hasKind(kind) ? null : unknownKind);

export async function askDrill(learnerId: string, kind: string, now = Date.now()): Promise<Asked> {
	const asked = await practice().drills.askKind(learnerId, kind, now);
	return asked.outcome === 'asked' || asked.outcome === 'making' ? asked : { outcome: 'invalid', says: unknownKind };
}

/** @param learnerId  null for a visitor who is no learner yet */
export async function drillKinds(learnerId: string | null, now = Date.now()): Promise<DrillKind[]> {
	const { plans, memories } = practice();
	const { zone } = memories.schedulerOf(learnerId);
	const kept = memories.of(learnerId);
	const askable = await plans.askable();
	return [...plans.skills.values()].flatMap((skill): DrillKind[] => {
		const state = skill.kind === 'drill' ? askable(skill.drill) : null;
		if (skill.kind !== 'drill' || state === null) return [];
		const memory = kept.get(skill.id);
		const back = memory ? nightWords(memory.due, now, zone) : null;
		return [{ id: skill.drill, name: skill.name, back, state }];
	});
}

function viewOf({ id, question, answered }: StandingDrill, learnerId: string, now: number): DrillView {
	const { plans, memories, rounds } = practice();
	const skill = drillSkillId(question.drill);
	const telling = { skills: plans.skills, memories: memories.of(learnerId), zone: memories.schedulerOf(learnerId).zone, now };
	const isHeld = isHeldBack(database(), { drill: id }, now);
	const [shown = null] = answered && !isHeld ? shownOf([{ skill, recall: answered.judged.recall }], telling) : [];
	return {
		kind: question.drill,
		name: plans.skills.get(skill)?.name ?? question.drill,
		family: question.family === null ? null : (plans.families.get(question.family) ?? null),
		question,
		answered: answered && !isHeld ? { ...answered, shown } : null,
		isTaken: answered !== null && isHeld,
		round: rounds.wayOn(learnerId, { drill: id }, now)
	};
}
