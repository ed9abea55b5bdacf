import fc from 'fast-check';
import { eq } from 'drizzle-orm';
import { describe, expect, it } from 'vitest';
import { fit, learner, memory } from '$lib/server/database/schema.ts';
import { reviewLogIn } from '$lib/server/database/review-log.ts';
import { reviewOf } from '$lib/server/practice/memories.ts';
import { recalls } from '#shared/marking/recall.ts';
import { defaultScheduler, isDue, remember, schedulerVersion } from '#shared/review/memory/schedule.ts';
import type { Review } from '#shared/review/skill.ts';
import { day, minute, monday, practising, type Practising } from './practising.ts';

/** A line into the log, and into what is kept of it. */
function show({ db, practice, learnerId }: Practising, review: Review): void {
	db.transaction(() => {
		reviewLogIn(db).add({ ...review, at: new Date(review.at), learner: learnerId });
		practice.memories.take(learnerId, review);
	});
}
const keptIn = ({ db }: Practising) =>
	new Map(
		db
			.select()
			.from(memory)
			.all()
			.map(({ skill, content }) => [skill, JSON.parse(content)])
	);
const rebuilt = ({ db, practice, learnerId }: Practising) =>
	remember(reviewLogIn(db).all(learnerId).map(reviewOf), practice.memories.schedulerOf(learnerId));

const lines = fc.array(
	fc.record({
		skill: fc.constantFrom('combi/gas', 'combi/air', 'drill/gas-sums'),
		recall: fc.constantFrom(...recalls),
		after: fc.integer({ min: 0, max: 40 * 24 * 60 }),
		minutes: fc.double({ min: 0, max: 12, noNaN: true })
	}),
	{ minLength: 1, maxLength: 25 }
);

describe('what is kept of the log', () => {
	it('is to the last digit what the whole log gives, after each line', () => {
		fc.assert(
			fc.property(lines, (all) => {
				const one = practising();
				let at = monday;
				for (const { after, ...line } of all) {
					at += after * minute;
					show(one, { ...line, at });
				}
				expect(keptIn(one)).toEqual(rebuilt(one));
				expect(one.practice.memories.of(one.learnerId)).toEqual(rebuilt(one));
			}),
			{ numRuns: 12 }
		);
	});

	it('takes in a line that comes late, older than what was shown since', () => {
		const one = practising();
		const line = { skill: 'combi/gas', recall: 'sound', minutes: 4 } as const;
		show(one, { ...line, at: monday });
		show(one, { ...line, at: monday + 9 * day });
		show(one, { ...line, at: monday + 3 * day, recall: 'lost' });
		expect(keptIn(one)).toEqual(rebuilt(one));
		expect(keptIn(one).get('combi/gas')).toMatchObject({ reviews: 3, lapses: 1, last: monday + 9 * day });
	});

	it.each([
		['retention', { retention: 0.95 }],
		['time zone', { zone: 'Pacific/Auckland' }]
	])('is made again where the learner’s %s is another, and continued from there', (_, change) => {
		const one = practising();
		show(one, { skill: 'combi/gas', at: monday, recall: 'sound', minutes: 4 });
		show(one, { skill: 'combi/air', at: monday + day, recall: 'lost', minutes: 4 });
		const before = keptIn(one);
		one.db.update(learner).set(change).where(eq(learner.id, one.learnerId)).run();
		const now = one.practice.memories.of(one.learnerId);
		expect(now).toEqual(rebuilt(one));
		expect([...now.values()].map(({ due }) => due)).not.toEqual([...before.values()].map(({ due }) => due));
		expect(keptIn(one)).toEqual(now);
		show(one, { skill: 'combi/gas', at: monday + 8 * day, recall: 'sound', minutes: 4 });
		expect(keptIn(one)).toEqual(rebuilt(one));
	});

	it('is made again where the log came to hold more, as by a guest’s who signed in', () => {
		const one = practising();
		show(one, { skill: 'combi/gas', at: monday, recall: 'sound', minutes: 4 });
		reviewLogIn(one.db).add({ learner: one.learnerId, skill: 'combi/gas', at: new Date(monday - day), recall: 'lost', minutes: 2 });
		expect(one.practice.memories.of(one.learnerId).get('combi/gas')).toMatchObject({ reviews: 2 });
		expect(one.practice.memories.of(one.learnerId)).toEqual(rebuilt(one));
	});

	it('follows the parameters in force: one’s own before everyone’s, the latest, of this version, and only what was kept', () => {
		const one = practising();
		const scaled = (by: number) => defaultScheduler.parameters.map((w, index) => (index < 4 ? w * by : w));
		const fitted = (by: number, given: Partial<typeof fit.$inferInsert> = {}) =>
			one.db
				.insert(fit)
				.values({
					at: new Date(monday),
					items: 80,
					version: schedulerVersion,
					parameters: JSON.stringify(scaled(by)),
					before: 0.4,
					after: 0.3,
					kept: true,
					...given
				})
				.run();
		const inForce = () => one.practice.memories.schedulerOf(one.learnerId).parameters;
		expect(inForce()).toEqual(defaultScheduler.parameters);
		show(one, { skill: 'combi/gas', at: monday, recall: 'sound', minutes: 4 });
		fitted(2);
		fitted(3);
		fitted(4, { kept: false });
		fitted(5, { version: 'another' });
		expect(inForce()).toEqual(scaled(3));
		fitted(1.5, { learner: one.learnerId });
		fitted(6);
		expect(inForce()).toEqual(scaled(1.5));
		expect(one.practice.memories.of(one.learnerId).get('combi/gas')!.stability).toBeCloseTo(1.5 * defaultScheduler.parameters[2]!, 6);
	});

	it('brings a skill back on its day and not before', () => {
		const one = practising();
		show(one, { skill: 'combi/gas', at: monday, recall: 'sound', minutes: 4 });
		const kept = one.practice.memories.of(one.learnerId).get('combi/gas')!;
		expect(isDue(kept, monday + minute)).toBe(false);
		expect(isDue(kept, kept.due - 1)).toBe(false);
		expect(isDue(kept, kept.due)).toBe(true);
		expect(new Date(kept.due).toISOString()).toMatch(/T04:00:00/);
	});
});
