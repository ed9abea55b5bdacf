/** One simulated learner, night after night under one schedule. */
import type { Recall } from '#shared/marking/recall.ts';
import { chance, type Chance } from '#shared/quantity/random.ts';
import type { Step, Trail } from '#shared/review/fitting/trail.ts';
import type { Place, Policy } from './policy.ts';
import type { SkillMemory, Truth } from './truth.ts';

/** Skills to be learnt: three in four are callouts, the rest drills. */
export const skills = 48;
const isDrill = (skill: number): boolean => skill % 4 === 3;
/** At most so many skills are begun in a night, and only when what was due is done. */
const mostNew = 2;
/** Of first showings, how many succeed. */
const firstKept = 0.6;

/** What a showing takes [min]: a failure longer, since its debrief is read. Invented, of the order of the product's own. */
const minutesOf: Record<'callout' | 'drill', Record<Recall, number>> = {
	callout: { lost: 8, laboured: 6, sound: 4.5, fluent: 4.5 },
	drill: { lost: 2, laboured: 1.5, sound: 1, fluent: 1 }
};
const costOf = (skill: number, recall: Recall): number => minutesOf[isDrill(skill) ? 'drill' : 'callout'][recall];

/** A foretold chance and what came of it. */
export interface Outcome {
	readonly day: number;
	readonly predicted: number | null;
	readonly kept: boolean;
}

export interface SimulatedLearner {
	/** Goes on to the evening before a day. */
	until(day: number): void;
	/** Changes the schedule, which reads the log again from its beginning. */
	take(policy: Policy): void;
	trails(): Trail[];
	/** Sum of the chances of success over all skills, on a day that has not come. */
	knownOn(day: number): number;
	/** Of every day so far: what was known in the evening before practice, and minutes spent. */
	readonly known: readonly number[];
	readonly minutes: readonly number[];
	readonly outcomes: readonly Outcome[];
	readonly begun: () => number;
}

interface Head {
	readonly memory: SkillMemory;
	readonly draw: Chance;
	place: Place | null;
	readonly steps: Step[];
}

const dayMs = 86_400_000;

/** @param budget minutes of an evening; what is begun is finished */
export function simulatedLearner(truth: Truth, first: Policy, seed: number, learner: number, budget: number): SimulatedLearner {
	// Each skill draws from its own stream, so that luck is the same under every schedule.
	const heads: Head[] = Array.from({ length: skills }, (_, skill) => ({
		memory: truth.memory(seed, learner, skill),
		draw: chance(seed, 'showing', learner, skill),
		place: null,
		steps: []
	}));
	let policy = first;
	let today = 0;
	let begun = 0;
	const known: number[] = [];
	const minutes: number[] = [];
	const outcomes: Outcome[] = [];

	function show(skill: number): number {
		const head = heads[skill]!;
		const { place, memory, draw, steps } = head;
		const kept = draw.uniform() < (place ? memory.recall(today) : firstKept);
		const recall: Recall = kept ? draw.pick(['laboured', 'sound', 'sound', 'sound', 'fluent'] as const) : 'lost';
		if (place) outcomes.push({ day: today, predicted: place.foretold(today), kept });
		memory.shown(today, recall);
		const last = steps.at(-1);
		steps.push({ at: today * dayMs, days: last ? today - last.at / dayMs : 0, recall });
		head.place = place ? place.next(today, recall) : policy.begin(seed, learner, skill, today, recall);
		return costOf(skill, recall);
	}

	function evening(): number {
		const due = heads.flatMap(({ place }, skill) => (place && place.due <= today ? [{ skill, urgency: place.urgency(today) }] : []));
		due.sort((a, b) => a.urgency - b.urgency || a.skill - b.skill);
		let left = budget;
		let fits = true;
		for (const { skill } of due) {
			if (costOf(skill, 'sound') > left) fits = false;
			else left -= show(skill);
		}
		for (let n = 0; fits && n < mostNew && begun < skills && costOf(begun, 'sound') <= left; n++) left -= show(begun++);
		return budget - left;
	}

	const knownOn = (day: number) => heads.reduce((sum, { memory }) => sum + memory.recall(day), 0);
	return {
		known,
		minutes,
		outcomes,
		begun: () => begun,
		knownOn,
		until(day) {
			for (; today < day; today++) {
				known.push(knownOn(today));
				minutes.push(evening());
			}
		},
		take(next) {
			policy = next;
			for (const [skill, head] of heads.entries()) {
				head.place = null;
				for (const { at, recall } of head.steps) {
					const on = at / dayMs;
					head.place = head.place ? (head.place as Place).next(on, recall) : policy.begin(seed, learner, skill, on, recall);
				}
			}
		},
		trails: () =>
			heads.flatMap(({ steps }, skill) =>
				steps.length === 0 ? [] : [{ learner: String(learner), skill: `skill-${skill}`, steps: [...steps] }]
			)
	};
}
