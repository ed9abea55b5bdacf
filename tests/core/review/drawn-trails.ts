/** Trails of simulated learners, drawn from the memory model under given parameters: what is fitted to them has a truth to be held against. */
import { chance, type Chance } from '#shared/quantity/random.ts';
import type { Recall } from '#shared/marking/recall.ts';
import { defaultScheduler, intervalDays, recallAfter, strengthAfter, type Strength } from '#shared/review/memory/schedule.ts';
import { withinBounds } from '#shared/review/fitting/bounds.ts';
import { isUsable, type Step, type Trail } from '#shared/review/fitting/trail.ts';

const dayMs = 86_400_000;
const begin = Date.UTC(2026, 0, 5, 20);

/** The defaults, each multiplied by a log-normal factor; the first four stray further than the rest, as people do. */
export function jittered(seed: number, first = 0.6, rest = 0.2): number[] {
	const draw = chance(seed, 'jitter');
	return withinBounds(defaultScheduler.parameters.map((value, i) => value * Math.exp((i < 4 ? first : rest) * draw.normal())));
}

/** Trails with so many usable reviews in all, of learners a, b, c and so on in turn. */
export function drawnTrails(seed: number, truth: readonly number[], items: number, learners = 1): Trail[] {
	const trails: Trail[] = [];
	for (let n = 0, left = items; left > 0; n++) {
		const draw = chance(seed, 'trail', n);
		const steps = drawnSteps(draw, truth, Math.min(left, draw.whole(2, 8)));
		left -= steps.filter(isUsable).length;
		trails.push({ learner: String.fromCharCode(97 + (n % learners)), skill: `skill-${n}`, steps });
	}
	return trails;
}

function drawnSteps(draw: Chance, truth: readonly number[], usable: number): Step[] {
	const { parameters, retention } = defaultScheduler;
	const steps: Step[] = [];
	let at = begin + draw.whole(0, 60) * dayMs;
	let held: Strength | null = null;
	let believed: Strength | null = null;
	for (let i = 0; i <= usable; i++) {
		const planned = believed ? intervalDays(believed.stability, retention, parameters) : 0;
		const days = believed ? Math.max(1, Math.round(planned * draw.between(0.7, 1.5))) : 0;
		at += days * dayMs;
		const kept = held ? draw.uniform() < recallAfter(days, held.stability, truth) : draw.uniform() < 0.7;
		const recall: Recall = kept ? draw.pick(['laboured', 'sound', 'sound', 'sound', 'fluent'] as const) : 'lost';
		steps.push({ at, days, recall });
		held = strengthAfter(held, days, recall, truth);
		believed = strengthAfter(believed, days, recall, parameters);
	}
	return steps;
}
