/** Safety, prices and marks: what differs by country or is for whoever sets the rules to judge. */
import { z } from 'zod';
import { disturbances, id, says, siteState } from './words.ts';

export const advice = z.strictObject({ id, says });

export const safeStep = z.strictObject({
	id,
	name: says,
	how: says,
	minutes: z.number().min(0),
	sets: z.array(siteState).min(1),
	needs: z.array(siteState).default([])
});

export const safetyRule = z.strictObject({
	id,
	says,
	why: says,
	/** A dangerous breach stops the callout and fails it. */
	dangerous: z.boolean(),
	marks: z.number().min(0)
});

const share = z.number().min(0).max(1);
const marksLost = z.number().min(0);
/** How marks are lost within each criterion. Every figure is a judgement of ours, and can be set otherwise by whoever sets the rules. */
export const weighing = z.strictObject({
	/** A part fitted that was sound: on a guess; with reason though not proof; where the evidence justified it. */
	soundPart: z.strictObject({ guessed: marksLost, likely: marksLost, justified: marksLost }),
	/** The right part fitted before it was proved: on a guess; with reason though not proof. */
	luckyPart: z.strictObject({ guessed: marksLost, likely: marksLost }),
	/** An action counts as justified when it loses no more than this share of the sound path's cost. */
	justifiedRegret: share,
	/** Regret, as a share of the sound path's cost, that costs nothing, and that costs all marks of economy. */
	economy: z.strictObject({ free: z.number().min(0), all: z.number().positive() }),
	/** Sureness stated one step, or two steps, from what the evidence bore. */
	sureness: z.strictObject({ oneOff: marksLost, twoOff: marksLost }),
	/** A fault judged out while suspicion of it was above `stillIn`, or judged in while it was below `surelyOut`. */
	judged: z.strictObject({ stillIn: share, surelyOut: share, wronglyOut: marksLost, wronglyIn: marksLost }),
	/** Shares of the marks for finishing. */
	finish: z.strictObject({ proved: share, checked: share, cause: share, told: share }),
	/** Told of something that is not so here. */
	untrue: marksLost,
	/** Regret, as a share of the sound path's cost, above which a cure was laboured, and up to which it was fluent. */
	recall: z.strictObject({ laboured: z.number().positive(), fluent: z.number().min(0) })
});

export const rules = z.strictObject({
	id,
	name: says,
	currency: z.string(),
	labourPerHour: z.number().positive(),
	/** What a wrong repair left behind costs: the return visit, in minutes. */
	returnMinutes: z.number().positive(),
	fetchMinutes: z.number().min(0),
	judgeMinutes: z.number().min(0),
	proveMinutes: z.number().positive(),
	leaveMinutes: z.number().min(0),
	/** Limits that differ by country, with where each comes from. */
	limits: z.record(id, z.strictObject({ value: z.number(), unit: z.string(), says, source: says })),
	steps: z.array(safeStep),
	safety: z.array(safetyRule),
	/** After work that disturbs something: the checks that must follow. */
	after: z.record(z.enum(disturbances), z.array(id)),
	advice: z.array(advice),
	marks: z.strictObject({ safety: z.number(), parts: z.number(), economy: z.number(), evidence: z.number(), finish: z.number() }),
	weighing,
	/** Suspicion on one remedy from which fitting it counts as proved, and from which as likely. */
	proof: z.strictObject({ proved: z.number(), likely: z.number() })
});

export type Advice = z.infer<typeof advice>;
export type SafeStep = z.infer<typeof safeStep>;
export type SafetyRule = z.infer<typeof safetyRule>;
export type Rules = z.infer<typeof rules>;
