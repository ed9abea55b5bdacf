/** Arbitrary logs of a learner, in order of time. */
import fc from 'fast-check';
import { recalls } from '#shared/marking/recall.ts';
import type { Scheduler } from '#shared/review/memory/memory.ts';
import { defaultScheduler } from '#shared/review/memory/schedule.ts';
import type { Review } from '#shared/review/skill.ts';

const hour = 3_600_000;
export const skillIds = ['a/sensing', 'a/gas', 'b/gas', 'drill/reading'];
export const anyRecall = fc.constantFrom(...recalls);

/** From a few minutes to three months from one review to the next. */
const anyGap = fc.oneof(fc.integer({ min: 0, max: 12 * hour }), fc.integer({ min: 0, max: 90 * 24 * hour }));

export const anyLog = (maxLength = 30): fc.Arbitrary<Review[]> =>
	fc
		.array(fc.record({ skill: fc.constantFrom(...skillIds), gap: anyGap, recall: anyRecall, minutes: fc.integer({ min: 0, max: 20 }) }), {
			minLength: 1,
			maxLength
		})
		.map((steps) => {
			let at = Date.UTC(2026, 0, 5, 20);
			return steps.map(({ gap, ...review }) => ({ ...review, at: (at += gap) }));
		});

export const anyScheduler: fc.Arbitrary<Scheduler> = fc.record({
	version: fc.constant(defaultScheduler.version),
	parameters: fc.constant(defaultScheduler.parameters),
	retention: fc.double({ min: 0.7, max: 0.97, noNaN: true }),
	zone: fc.constantFrom('Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu')
});
