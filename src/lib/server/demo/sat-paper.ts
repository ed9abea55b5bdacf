/** The paper that an invented cohort has sat, weeks ago: drawn as any is, its callouts played through the service, its drills answered. */
import { randomUUID } from 'node:crypto';
import { asc, eq } from 'drizzle-orm';
import type { CalloutItem, DrillItem, Variant } from '#shared/assessment/variant.ts';
import { chance, type Chance } from '#shared/quantity/random.ts';
import { generators } from '#shared/review/drills/index.ts';
import type { Answer, Drill } from '#shared/review/drills/drill.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { appendAudit } from '../audit/audit.ts';
import type { Callouts } from '../callouts/callouts.ts';
import { drillsIn } from '../database/drills.ts';
import type { Database } from '../database/open.ts';
import { member, paper, sitting, sittingItem } from '../database/schema.ts';
import { keepVariants } from '../papers/kept-paper.ts';
import { inventedPaper } from './centre.ts';
import { playVisit } from './example-visits.ts';

const dayMs = 86_400_000;
const minuteMs = 60_000;
/** The window, in days before now. */
const window = { opened: 24, closed: 17 };

export interface SatBy {
	readonly db: Database;
	readonly callouts: Callouts;
	readonly pack: Pack;
	readonly seed: number;
}

/**
 * Stores the paper with a sitting of every name on the register, closed and not marked yet.
 * @returns ids of the paper and of its sittings
 */
export function sitPaper(
	cohortId: string,
	variants: readonly Variant[],
	by: SatBy,
	now: number
): { readonly paper: string; readonly sittings: readonly string[] } {
	const { db, pack } = by;
	return db.transaction(
		() => {
			const [opens, closes] = [now - window.opened * dayMs, now - window.closed * dayMs];
			const { title, minutes, passRule } = inventedPaper;
			const id = randomUUID();
			const set = new Date(opens - dayMs);
			db.insert(paper)
				.values({
					id,
					cohort: cohortId,
					title,
					mode: 'formal',
					blueprint: JSON.stringify(inventedPaper.blueprintOf(pack.family.id)),
					passRule: JSON.stringify(passRule),
					variantCount: variants.length,
					minutes,
					attempts: 1,
					opens: new Date(opens),
					closes: new Date(closes),
					created: set,
					createdBy: 'demo',
					set
				})
				.run();
			keepVariants(db, id, variants, [pack], set);
			appendAudit(db, { at: now, by: null, cohort: cohortId, kind: 'paper-set', subject: id, content: { invented: true } });
			const sitters = db.select().from(member).where(eq(member.cohort, cohortId)).orderBy(asc(member.name)).all();
			const sittings = sitters.map(({ id: memberId, learner }, index) => {
				const variant = variants[index % variants.length]!;
				const began = opens + chance(by.seed, 'began', index).whole(1, 5) * dayMs;
				return sit({ paper: id, member: memberId, learner: learner!, variant, began, index }, by);
			});
			return { paper: id, sittings };
		},
		{ behavior: 'immediate' }
	);
}

interface Sitter {
	readonly paper: string;
	readonly member: string;
	readonly learner: string;
	readonly variant: Variant;
	/** [ms since 1970] */
	readonly began: number;
	readonly index: number;
}

function sit({ paper: paperId, member: memberId, learner, variant, began, index }: Sitter, by: SatBy): string {
	const { db, callouts, pack, seed } = by;
	const draw = chance(seed, 'sitting', index);
	const ability = draw.uniform();
	let at = began;
	const clock = () => (at += draw.whole(5, 40) * 1000);
	const played = variant.items.map((item) =>
		item.kind === 'callout'
			? { attempt: visit(item, { callouts, pack, learner, draw, ability, clock }) }
			: { drill: answer(item, { db, learner, draw, ability, clock }) }
	);
	const id = randomUUID();
	const ended = new Date(at + minuteMs);
	db.insert(sitting)
		.values({
			id,
			paper: paperId,
			member: memberId,
			variant: variant.number,
			number: 1,
			started: new Date(began),
			deadline: new Date(began + inventedPaper.minutes * minuteMs),
			ended,
			endedBy: 'handed-in',
			seen: ended
		})
		.run();
	for (const [slot, came] of played.entries())
		db.insert(sittingItem)
			.values({ sitting: id, slot, ...came })
			.run();
	return id;
}

interface Playing {
	readonly callouts: Callouts;
	readonly pack: Pack;
	readonly learner: string;
	readonly draw: Chance;
	/** 0 to 1, the same in all that somebody does. */
	readonly ability: number;
	readonly clock: () => number;
}

/** Below this ability somebody works on live parts, and is stopped. */
const careless = 0.08;

/** Some go for the fault after a few checks, some guess first, some leave without having proved or told anything. */
function visit({ family, seed, fault: id }: CalloutItem, { callouts, pack, learner, draw, ability, clock }: Playing): string {
	const started = callouts.start(learner, { family, seed, fault: id }, clock());
	if (started.outcome !== 'started') throw new Error(started.says);
	const fault = pack.faults.find((one) => one.id === id)!;
	const others = pack.faults.filter((one) => one.area === fault.area && one.id !== id);
	const guessesFirst = others.length > 0 && draw.uniform() < 0.7 * (1 - ability);
	playVisit(callouts, learner, pack, started.attemptId, {
		suspects: guessesFirst ? [draw.pick(others), fault] : [fault],
		checks: draw.whole(0, 2) + Math.round(2 * ability),
		isCareless: ability < careless,
		proves: draw.uniform() < 0.5 + 0.5 * ability,
		tells: draw.uniform() < 0.4 + 0.6 * ability,
		clock
	});
	return started.attemptId;
}

/** The abler answer rightly more often. */
function answer(
	{ generator: id, seed, family }: DrillItem,
	{ db, learner, draw, ability, clock }: Pick<Playing, 'learner' | 'draw' | 'ability' | 'clock'> & { db: Database }
): string {
	const drill = generators.find((one) => one.id === id)!.make({ pack: null, table: null }, seed);
	const { right, wrong } = answersTo(drill, draw);
	const said = draw.uniform() < 0.3 + 0.65 * ability ? right : wrong;
	const [created, answered] = [new Date(clock()), new Date(clock() + minuteMs)];
	const key = randomUUID();
	drillsIn(db).add({ id: key, learner, generator: id, family, packHash: null, seed, created, answer: JSON.stringify(said), answered });
	return key;
}

/** A right answer, by the drill's own judgement, and a wrong one: another choice, or a figure that is out by a tenth. */
function answersTo({ question, judge }: Drill, draw: Chance): { right: Answer; wrong: Answer } {
	if (question.asking.kind !== 'figure') {
		const answers = question.asking.choices.map(({ id }): Answer => ({ chosen: [id] }));
		const isRight = (one: Answer) => {
			const judged = judge(one, 1);
			return 'right' in judged && judged.right;
		};
		return { right: answers.find(isRight) ?? answers[0]!, wrong: draw.pick(answers.filter((one) => !isRight(one))) };
	}
	const told = judge({ written: '0' }, 1);
	const right = 'refused' in told ? '0' : told.answer[0]!;
	return { right: { written: right }, wrong: { written: right.replace(/[\d.]+/, (figure) => (Number(figure) * 1.1).toPrecision(3)) } };
}
