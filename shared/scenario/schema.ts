/**
 * The shapes of everything the trade writes in `scenarios/`. A file that does not fit is refused with its file, line and key
 * (see `read.ts`); what fits together is checked in `pack.ts`.
 */
import { z } from 'zod';
import { demands } from '#shared/appliance/model.ts';
import { areas, type Area } from './areas.ts';

export { areas, type Area };

const id = z.string().regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'an id: lower-case words joined by hyphens');
const says = z.string().min(3);
const span = z.strictObject({ from: z.number(), to: z.number() }).refine((s) => s.from <= s.to, 'from must not be above to');
const demand = z.enum(demands);

const area = z.enum(Object.keys(areas) as [Area, ...Area[]]);

/** A parameter of a healthy appliance: its nominal value and how far sound ones differ (a share of it, one standard deviation). */
export const parameter = z.strictObject({
	nominal: z.number(),
	spread: z.number().min(0).max(0.5).default(0)
});

/** The state of the site that a check or a remedy may need, and that make-safe steps bring about. */
export const siteStates = [
	'casing-off',
	'casing-on',
	'electricity-on',
	'electricity-off',
	'proved-dead',
	'gas-on',
	'gas-off',
	'water-on',
	'water-off'
] as const;
export type SiteState = (typeof siteStates)[number];
const siteState = z.enum(siteStates);

const point = z.tuple([z.number(), z.number()]);
/** Where something is on the family's drawing. `symbol` names a symbol of the drawing kit. */
export const place = z.strictObject({
	id,
	name: says,
	symbol: id,
	at: point,
	turn: z.number().default(0),
	label: z.strictObject({ at: point, anchor: z.enum(['start', 'middle', 'end']).default('middle') }).optional(),
	inside: z.boolean(),
	says
});
export const run = z.strictObject({
	carries: z.enum(['flow', 'return', 'cold', 'hot', 'gas', 'air', 'flue', 'live', 'neutral', 'signal', 'condensate']),
	points: z.array(point).min(2),
	inside: z.boolean().default(true)
});

export const family = z.strictObject({
	id,
	name: says,
	short: says,
	says,
	/** The code in `shared/appliance/families/` that computes it. */
	model: id,
	/** `short` is the name within a sentence. */
	demands: z.array(z.strictObject({ id: demand, name: says, short: says, minutes: z.number().positive() })),
	parameters: z.record(z.string(), parameter),
	/** The firing sequence in plain words, in order. */
	sequence: z.array(z.strictObject({ id, demand, does: says })),
	/** What the appliance shows when it has shut down, by the model's lockout name, in words of our own. */
	indications: z.record(id, says)
});

/** A family's drawing: places on a grid, joined by runs of pipe and wire. In a file of its own, since it is geometry and not trade. */
export const drawing = z.strictObject({
	family: id,
	width: z.number().positive(),
	height: z.number().positive(),
	casing: z.strictObject({ from: point, to: point }),
	places: z.array(place),
	runs: z.array(run)
});

/**
 * What severity does to one parameter. `to`: straight from the healthy value at severity 0 to this value at 1. `times`: the healthy value
 * multiplied, from 1 at severity 0 to this factor at 1. `becomes`: this value at any severity above 0.
 */
export const change = z.union([
	z.strictObject({ to: z.number() }),
	z.strictObject({ times: z.number().min(0) }),
	z.strictObject({ becomes: z.number() })
]);

export const fault = z.strictObject({
	id,
	area,
	says,
	/** What it does to the appliance, for the debrief: one or two sentences. */
	because: says,
	changes: z.record(z.string(), change),
	/** Severities met in callouts; severity 0 is always the healthy machine. */
	severity: span,
	weight: z.number().positive(),
	/** Household facts that make it likelier, and how many times. */
	raised: z.record(id, z.number().positive()).default({}),
	/** Checks that show it. However likely it is, nothing counts as proved before one of them has been taken. */
	shown: z.array(id).min(1),
	/** Remedies that cure it, the soundest first. */
	cured: z.array(id).min(1),
	/** Advice that deals with the cause behind the cause. */
	advise: z.array(id).default([]),
	/** Faults that no check offered can tell from this one, sharing a remedy. */
	alike: z.array(id).default([])
});

/** What an instrument's ranges can measure, with the unit that they show. */
export const measuredUnits = { ohms: 'ohm', 'volts a.c.': 'V', 'volts d.c.': 'V', pressure: 'mbar', temperature: 'degC' } as const;
export type Measured = keyof typeof measuredUnits;

/** Instruments that have a face of their own on the bench. */
export const instrumentFaces = ['meter', 'manometer', 'thermometer', 'analyser', 'flow-cup', 'rev-counter', 'microammeter'] as const;
export type InstrumentFace = (typeof instrumentFaces)[number];

/** One range that the instrument can be set to by hand. Its error is one standard deviation; the share of the value is the instrument's. */
export const instrumentRange = z.strictObject({
	id,
	name: says,
	error: z.number().min(0),
	resolution: z.number().positive(),
	/** Above this the display says that it is over range. */
	over: z.number().positive()
});

/** A way of using a tool: what it shows when it sets itself, and the ranges that it can be set to instead. */
export const instrument = z.strictObject({
	id,
	name: says,
	/** Errors are one standard deviation: absolute in the reading's unit, and as a share of the value. */
	error: z.number().min(0),
	errorShare: z.number().min(0).default(0),
	resolution: z.number().positive(),
	/** Above this the display says that it is over range. */
	over: z.number().optional(),
	/** What it shows where there is nothing to show, in place of `over range`. */
	beyond: says.optional(),
	/** The tool that it is a setting of; left out where it is a tool of its own. */
	tool: id.optional(),
	/** The face that the tool has on the bench. */
	face: z.enum(instrumentFaces).optional(),
	/** What its ranges measure. */
	measures: z.enum(Object.keys(measuredUnits) as [Measured, ...Measured[]]).optional(),
	/** Rising. A tool's ranges are those of all of its settings together. */
	ranges: z.array(instrumentRange).min(1).optional(),
	/** Fetched from the van once; the senses are always at hand. */
	fetched: z.boolean().default(true)
});

/** A word for a band of the quantity: bands in rising order, each up to and without `below`; the last has no `below`. */
export const wordBand = z.strictObject({ word: z.string().min(1), below: z.number().optional() });

const pair = z.tuple([id, id]);
/** Where the leads of a meter can be put, the two points that the check is taken between, and what any other two of them read. */
export const terminals = z.strictObject({
	points: z.array(z.strictObject({ id, name: says, wire: z.enum(['live', 'neutral', 'earth', 'signal']) })).min(2),
	between: pair,
	others: z
		.array(
			z.strictObject({
				between: pair,
				/** A quantity of the model; `nothing` where there is none between them, `open` where nothing joins them. */
				reads: z.string(),
				/** The quantity that is taken off it, the difference without its sign. */
				less: z.string().optional(),
				times: z.number().positive().default(1)
			})
		)
		.default([])
});

/** What work can leave in need of a check. */
export const disturbances = ['gas', 'water', 'electrics', 'combustion'] as const;

export const check = z.strictObject({
	id,
	name: says,
	/** How it is done, in one or two sentences. */
	how: says,
	way: z.enum(['look', 'listen', 'feel', 'measure', 'ask']),
	place: id,
	area,
	under: z.array(demand).min(1),
	/** The settled quantity that it reads. */
	reads: z.string(),
	unit: z.string().default(''),
	instrument: id.optional(),
	/** What stands on the instrument while the check is taken, where what is read is a change of it. */
	carries: z.string().optional(),
	terminals: terminals.optional(),
	/** For senses and answers: what the learner is told, by bands of the quantity. */
	words: z.array(wordBand).min(2).optional(),
	/** The chance that a sense is misjudged by one band. */
	misjudged: z.number().min(0).max(0.3).default(0),
	/** Given freely to anyone standing there whenever the demand is set. */
	noticed: z.boolean().default(false),
	/** What is followed over the whole run, with the step to which it can be read: signals of the model. */
	over: z.array(z.strictObject({ signal: z.string(), step: z.number().positive() })).optional(),
	minutes: z.number().min(0),
	needs: z.array(siteState).default([]),
	/** What it opens that must be checked afterwards, as work would. */
	disturbs: z.array(z.enum(disturbances)).default([]),
	live: z.boolean().default(false),
	caution: says.optional(),
	/** What can make it mislead; there is always something. */
	misleads: says,
	/** Why it takes the value it takes: a sentence with `{quantity}` or `{quantity:digits}` from the run. */
	why: says
});

export const remedyKinds = ['fit', 'clean', 'adjust', 'descale', 'repressurise', 'reset', 'advise'] as const;
const doing = {
	minutes: z.number().positive(),
	place: id,
	needs: z.array(siteState).default([]),
	disturbs: z.array(z.enum(disturbances)).default([])
};
/** A part: its price band in the rules' currency, and how it is fitted. Each part is also the remedy `fit-<id>`. */
export const part = z.strictObject({ id, name: says, price: span, ...doing });
/** A remedy that is not a part. `price` is of what it uses up. */
export const remedy = z.strictObject({ id, name: says, kind: z.enum(remedyKinds), price: z.number().min(0).default(0), ...doing });

export const advice = z.strictObject({ id, says });

/**
 * A household archetype. Facts are what the customer can tell: `facts` always hold, `maybe` hold with this chance. Parameters override the
 * family's, as spans sampled evenly; those of a fact that holds override the archetype's in turn.
 */
export const household = z.strictObject({
	id,
	says,
	weight: z.number().positive(),
	gas: z.enum(['G20', 'G25', 'G31']).default('G20'),
	facts: z.array(id),
	maybe: z.record(id, z.number().min(0).max(1)).default({}),
	parameters: z.record(z.string(), span)
});
/** A household fact, put as the customer would, and the parameter span that goes with it where it has one. */
export const fact = z.strictObject({ id, says, parameters: z.record(z.string(), span).default({}) });

/** A complaint is offered only where every condition holds for the simulated appliance. Bounds may name a settled quantity. */
export const complaint = z.strictObject({
	id,
	says: z.array(says).min(1),
	when: z.array(z.strictObject({ demand, quantity: z.string(), above: z.number().optional(), below: z.number().optional() })).min(1),
	/** The demand complained of, under which a repair is proved, and the checks that show it. */
	proves: z.strictObject({ demand, checks: z.array(id).min(1) })
});

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

export type FamilyData = z.infer<typeof family>;
export type Drawing = z.infer<typeof drawing>;
export type Place = z.infer<typeof place>;
export type Run = z.infer<typeof run>;
export type Change = z.infer<typeof change>;
export type Fault = z.infer<typeof fault>;
export type Instrument = z.infer<typeof instrument>;
export type InstrumentRange = z.infer<typeof instrumentRange>;
export type Terminals = z.infer<typeof terminals>;
export type Check = z.infer<typeof check>;
export type Part = z.infer<typeof part>;
export type RemedyData = z.infer<typeof remedy>;
export type Advice = z.infer<typeof advice>;
export type HouseholdData = z.infer<typeof household>;
export type Fact = z.infer<typeof fact>;
export type Complaint = z.infer<typeof complaint>;
export type SafeStep = z.infer<typeof safeStep>;
export type SafetyRule = z.infer<typeof safetyRule>;
export type Rules = z.infer<typeof rules>;
