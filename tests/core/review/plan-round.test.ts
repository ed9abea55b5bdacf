/** The laws of tonight's round. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf } from '#shared/review/memory/learner-day.ts';
import type { Night } from '#shared/review/round/night.ts';
import { minutesOf } from '#shared/review/round/minutes-of.ts';
import { planRound } from '#shared/review/round/plan-round.ts';
import { isDue, recallAt } from '#shared/review/memory/schedule.ts';
import { anyNight, curriculum, evening, everyRound, families, family, kindOfItem, nightOf, total, zone } from './nights.ts';

const memoryOf = (night: Night, skill: string) => night.memories.find((memory) => memory.skill === skill);
const ownMinutes = (night: Night, skill: string) =>
	minutesOf(
		night.skills.find(({ id }) => id === skill)!,
		night.log,
		night.cuts
	);
/** Whether one kind fills more than every third place, so that what stands between those is wanted there. */
const isCrowded = (items: readonly { skill: string }[]) => {
	const kinds = items.map(kindOfItem);
	return kinds.some((kind) => kinds.filter((other) => other === kind).length * 3 > kinds.length);
};
const dueOf = (night: Night) => night.memories.filter((memory) => isDue(memory, night.now));

describe('every round', () => {
	it('is the same for the same night, to the last digit, and other for another seed', () => {
		everyRound((night, round) => {
			expect(planRound(structuredClone(night))).toEqual(round);
			const other = planRound({ ...night, seed: night.seed + 1 });
			expect(other.items.map(({ skill }) => skill).toSorted()).toEqual(round.items.map(({ skill }) => skill).toSorted());
			expect(other.items.map(({ seed }) => seed)).not.toEqual(round.items.map(({ seed }) => seed));
		});
	});

	it('has something in it, and passes the minutes by no more than its last item', () => {
		everyRound((night, { items }) => {
			expect(items.length).toBeGreaterThan(0);
			expect(total(items.slice(0, -1))).toBeLessThan(night.minutes + Math.max(...items.map(({ minutes }) => minutes)));
			expect(total(items)).toBeLessThan(night.minutes + Math.max(...items.map(({ minutes }) => minutes)));
		});
	});

	it('never has two of one area or kind in a row, but for the first callouts of a skill begun in it', () => {
		everyRound((_, { items }) => {
			items.slice(1).forEach((item, index) => {
				const before = items[index];
				if (kindOfItem(item) !== kindOfItem(before)) return;
				expect(item.why).toBe('new');
				expect(item.kind).toBe('callout');
				expect(item.skill).toBe(before.skill);
			});
		});
	});

	it('sets two sums in a row, of whatever, only where they are more than can be set apart', () => {
		const isSum = ({ skill }: { skill: string }) => skill.endsWith('-sums');
		let some = 0;
		everyRound((_, { items }) => {
			const sums = items.filter(isSum).length;
			const inARow = items.some((item, index) => index > 0 && isSum(item) && isSum(items[index - 1]));
			// Callouts of a skill begun stay together, and two of one area in turn need something between them as well.
			if (sums > 1 && !inARow) some++;
			if (inARow) expect(sums * 2 > items.length || items.some(({ why }) => why === 'new') || isCrowded(items)).toBe(true);
		});
		expect(some).toBeGreaterThan(0);
	});

	it('draws the order of drills that are recalled alike, rather than have them by name', () => {
		const drills = ['reading', 'sequence', 'water-sums', 'terminals', 'ruled-out', 'heat-sums'].map((drill) => `drill/${drill}`);
		const log = drills.map((skill) => ({ skill, at: evening(0), recall: 'sound' as const, minutes: 1 }));
		const orders = Array.from({ length: 12 }, (_, seed) =>
			planRound(nightOf({ log, now: evening(40), seed })).items.map(({ skill }) => skill)
		);
		expect(new Set(orders.map((order) => order.slice(0, 6).join(' '))).size).toBeGreaterThan(6);
		for (const order of orders)
			expect(order.some((skill, index) => skill.endsWith('-sums') && order[index - 1]?.endsWith('-sums'))).toBe(false);
	});

	it('says of each item why it is there, and is right', () => {
		everyRound((night, { items }) => {
			for (const { skill, why } of items) {
				const memory = memoryOf(night, skill);
				expect(why).toBe(!memory ? 'new' : isDue(memory, night.now) ? 'due' : 'early');
			}
		});
	});

	it('has each known skill once, and counts all that is due and not in it as left', () => {
		everyRound((night, { items, left }) => {
			const known = items.filter(({ why }) => why !== 'new').map(({ skill }) => skill);
			expect(new Set(known).size).toBe(known.length);
			expect(left).toBe(dueOf(night).length - items.filter(({ why }) => why === 'due').length);
		});
	});
});

describe('what is due', () => {
	/** Nights on which all that is due is of few kinds, and there are other things besides. */
	const crowded = fc
		.record({
			kinds: fc.subarray(['gas', 'air', 'flame'], { minLength: 1 }),
			fresh: fc.subarray(['drill/reading', 'drill/sequence', 'drill/water-sums', 'family-0/sensing', 'family-0/water-supply']),
			minutes: fc.constantFrom(10, 20, 30)
		})
		.map(({ kinds, fresh, minutes }) => {
			const old = kinds.flatMap((area, place) =>
				[0, 1, 2].map((index) => ({
					skill: `family-${index}/${area}`,
					at: evening(place * 3 + index),
					recall: 'sound' as const,
					minutes: 6
				}))
			);
			const last = fresh.map((skill) => ({ skill, at: evening(39), recall: 'sound' as const, minutes: 2 }));
			return nightOf({ taught: families(3), log: [...old, ...last], minutes, now: evening(40) });
		});

	it('comes before all else: what is left would have stood beside its own kind, or no longer fits', () => {
		const half = curriculum.round.half;
		let leftOver = 0;
		for (const nights of [anyNight, crowded])
			fc.assert(
				fc.property(nights, (night) => {
					const { items } = planRound(night);
					const taken = new Set(items.map(({ skill }) => skill));
					for (const one of dueOf(night).filter(({ skill }) => !taken.has(skill))) {
						leftOver++;
						const isFull = total(items) + half * ownMinutes(night, one.skill) > night.minutes;
						expect(isFull || kindOfItem(items.at(-1)!) === kindOfItem(one)).toBe(true);
					}
				}),
				{ numRuns: 150 }
			);
		expect(leftOver).toBeGreaterThan(10);
	});

	it('lets something else in before it is all in only to set two of a kind apart', () => {
		const half = curriculum.round.half;
		let separated = 0;
		for (const nights of [anyNight, crowded])
			fc.assert(
				fc.property(nights, (night) => {
					const { items, left } = planRound(night);
					if (left === 0) return;
					items.forEach(({ why }, place) => {
						if (why === 'due') return;
						separated++;
						const before = items.slice(0, place);
						const waiting = dueOf(night).filter(({ skill }) => !before.some((item) => item.skill === skill));
						for (const one of waiting)
							expect(
								kindOfItem(before.at(-1)!) === kindOfItem(one) || total(before) + half * ownMinutes(night, one.skill) > night.minutes
							).toBe(true);
					});
				}),
				{ numRuns: 150 }
			);
		expect(separated).toBeGreaterThan(5);
	});

	it('that no longer fits is not passed over for something that is not due, only for something due and shorter', () => {
		const due = (skill: string, day: number) => ({ skill, at: evening(day), recall: 'sound' as const, minutes: 8 });
		const fresh = { skill: 'drill/reading', at: evening(39), recall: 'sound' as const, minutes: 1 };
		const plan = (log: Parameters<typeof nightOf>[0]['log']) => planRound(nightOf({ log, minutes: 10, now: evening(40) }));
		const callouts = [due('family-0/gas', 0), due('family-0/air', 1)];
		expect(plan([...callouts, fresh])).toMatchObject({ items: [{ skill: 'family-0/gas' }], left: 1 });
		const shorter = plan([...callouts, { ...fresh, at: evening(2) }]);
		expect(shorter.items.map(({ skill }) => skill)).toEqual(['family-0/gas', 'drill/reading']);
		expect(shorter.left).toBe(1);
	});

	it('of one kind alone is set apart by what is brought forward, and left where there is nothing to bring', () => {
		const taught = [0, 1, 2].map((index) => family(`family-${index}`, ['gas']));
		const gas = [0, 1, 2].map((index) => ({ skill: `family-${index}/gas`, at: evening(index), recall: 'sound' as const, minutes: 6 }));
		const drills = ['drill/water-sums', 'drill/heat-sums'].map((skill) => ({
			skill,
			at: evening(39),
			recall: 'sound' as const,
			minutes: 2
		}));
		const sums = nightOf({}).generators.filter(({ drill }) => drill === 'water-sums' || drill === 'heat-sums');
		const plan = (log: Parameters<typeof nightOf>[0]['log'], generators: typeof sums) =>
			planRound({ ...nightOf({ taught, log, minutes: 30, now: evening(40) }), generators });
		const apart = plan([...gas, ...drills], sums);
		expect(apart.items.map(kindOfItem).filter((_, index) => index % 2 === 0)).toEqual(['gas', 'gas', 'gas']);
		expect(apart.left).toBe(0);
		const alone = plan(gas, []);
		expect(alone.items.map(kindOfItem)).toEqual(['gas']);
		expect(alone.left).toBe(2);
	});

	it('is taken by least recall: only a shorter one, or one of another kind, goes before one less remembered that is left', () => {
		everyRound((night, { items }) => {
			const taken = items.filter(({ why }) => why === 'due').map(({ skill }) => memoryOf(night, skill)!);
			const left = dueOf(night).filter((memory) => !taken.includes(memory));
			const recall = (memory: (typeof taken)[number]) => recallAt(memory, night.now, night.scheduler);
			for (const one of left)
				for (const other of taken.filter((memory) => recall(memory) > recall(one)))
					expect(ownMinutes(night, other.skill) < ownMinutes(night, one.skill) || kindOfItem(items.at(-1)!) === kindOfItem(one)).toBe(true);
		});
	});

	it('of unlike kinds is chosen by least recall', () => {
		const skills = ['sensing', 'gas', 'air', 'flame', 'circulation'];
		fc.assert(
			fc.property(fc.shuffledSubarray(skills, { minLength: 2 }), (areas) => {
				// The earlier it was shown, the less is left of it.
				const log = areas.map((area, index) => ({
					skill: `family-0/${area}`,
					at: evening(index * 2),
					recall: 'sound' as const,
					minutes: 5
				}));
				const night = nightOf({ log, minutes: 30, now: evening(40) });
				const due = planRound(night).items.filter(({ why }) => why === 'due');
				expect(due.map(kindOfItem).toSorted()).toEqual(areas.slice(0, due.length).toSorted());
				expect(due.length).toBeGreaterThanOrEqual(2);
			})
		);
	});
});

describe('an early finish', () => {
	/** Everything in one small family, shown fluent for days and last on the evening before. */
	const small = [family('a', ['water-supply', 'sensing'])];
	const skills = nightOf({ taught: small }).skills.map(({ id }) => id);
	const log = [-3, -2, -1].flatMap((day) =>
		skills.map((skill, index) => ({ skill, at: evening(day) + index, recall: 'fluent' as const, minutes: 2 }))
	);

	it('brings forward what is least remembered, where nothing is due and nothing is left to begin', () => {
		const older = log.map((review) => (review.skill === 'a/sensing' ? { ...review, recall: 'sound' as const } : review));
		const night = nightOf({ taught: small, log: older, minutes: 10 });
		expect(dueOf(night)).toEqual([]);
		const { items, left } = planRound(night);
		expect(items.length).toBeGreaterThan(1);
		expect(items.every(({ why }) => why === 'early')).toBe(true);
		expect(items.map(({ skill }) => skill)).toContain('a/sensing');
		expect(left).toBe(0);
	});

	it('leaves what was shown today alone while there is something else', () => {
		const tonight = [...log, { skill: 'a/sensing', at: evening(0) - 60_000, recall: 'laboured' as const, minutes: 2 }];
		const { items } = planRound(nightOf({ taught: small, log: tonight, minutes: 30 }));
		expect(items.map(({ skill }) => skill)).not.toContain('a/sensing');
		everyRound((night, { items: any }) => {
			const early = any.filter(({ why }) => why === 'early').map(({ skill }) => dayOf(memoryOf(night, skill)!.last, zone));
			const isTonight = early.filter((day) => day === dayOf(night.now, zone));
			if (isTonight.length > 0) expect(any.length).toBe(isTonight.length);
		});
	});

	it('still has something for whoever comes again on the same evening', () => {
		const shown = skills.map((skill, index) => ({ skill, at: evening(0) - 60_000 + index, recall: 'sound' as const, minutes: 2 }));
		const { items } = planRound(nightOf({ taught: small, log: shown, minutes: 10 }));
		expect(items.length).toBeGreaterThan(0);
		expect(items.every(({ why }) => why === 'early')).toBe(true);
	});
});

describe('minutes', () => {
	it("are the learner's own once they are known: who is slow gets fewer items", () => {
		const areas = ['water-supply', 'sensing', 'user', 'diverting', 'heat-transfer'];
		const itemsAt = (minutes: number) => {
			const log = [-30, -29, -28, -27].flatMap((day) =>
				areas.map((area, index) => ({ skill: `family-0/${area}`, at: evening(day) + index, recall: 'sound' as const, minutes }))
			);
			return planRound(nightOf({ log, now: evening(300), minutes: 20 })).items;
		};
		expect(itemsAt(3).length).toBeGreaterThan(itemsAt(15).length);
		expect(itemsAt(15).length).toBeLessThanOrEqual(2);
	});
});
