/** How a callout shows its skills: the rule of recall, and the lines that it adds to the log. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recallOf, recalls, type Performance } from '#shared/marking/recall.ts';
import { areas, type Area } from '#shared/scenario/areas.ts';
import { drillReview, reviewsOf } from '#shared/review/memory/recall-of.ts';
import { areaSkillId } from '#shared/review/skills.ts';
import { combiPack } from '../callout/combi-pack.ts';

const cuts = combiPack.rules.weighing.recall;
const cured: Performance = { failed: false, cured: true, guessed: false, unproved: false, regretShare: 0 };
const rank = (performance: Performance) => recalls.indexOf(recallOf(performance, cuts));
const anyPerformance: fc.Arbitrary<Performance> = fc.record({
	failed: fc.boolean(),
	cured: fc.boolean(),
	guessed: fc.boolean(),
	unproved: fc.boolean(),
	regretShare: fc.double({ min: 0, max: 3, noNaN: true })
});

describe('the rule of recall', () => {
	it('reaches each of the four', () => {
		expect(recallOf(cured, cuts)).toBe('fluent');
		expect(recallOf({ ...cured, regretShare: (cuts.fluent + cuts.laboured) / 2 }, cuts)).toBe('sound');
		expect(recallOf({ ...cured, regretShare: cuts.laboured * 1.1 }, cuts)).toBe('laboured');
		expect(recallOf({ ...cured, unproved: true }, cuts)).toBe('laboured');
		expect(recallOf({ ...cured, cured: false }, cuts)).toBe('lost');
	});

	it('never improves with more regret, wherever the cut points lie', () => {
		fc.assert(
			fc.property(
				anyPerformance,
				fc.double({ min: 0, max: 2, noNaN: true }),
				fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })),
				(performance, more, [one, other]) => {
					const own = { fluent: Math.min(one, other), laboured: Math.max(one, other) };
					const worse = { ...performance, regretShare: performance.regretShare + more };
					expect(recalls.indexOf(recallOf(worse, own))).toBeLessThanOrEqual(recalls.indexOf(recallOf(performance, own)));
				}
			)
		);
	});

	it('never improves with a breach, a guess or a fault left', () => {
		fc.assert(
			fc.property(anyPerformance, (performance) => {
				expect(rank({ ...performance, failed: true })).toBe(0);
				expect(rank({ ...performance, guessed: true })).toBe(0);
				expect(rank({ ...performance, cured: false })).toBe(0);
			})
		);
	});

	it('gives a guess nothing for being lucky', () => {
		fc.assert(
			fc.property(anyPerformance, (performance) => {
				const guess = { ...performance, guessed: true };
				expect(recallOf({ ...guess, cured: true }, cuts)).toBe(recallOf({ ...guess, cured: false }, cuts));
			})
		);
	});
});

const anyArea = fc.constantFrom(...(Object.keys(areas) as Area[]));
const anyShown = fc.record({
	recall: fc.constantFrom(...recalls),
	misread: fc.array(anyArea),
	area: anyArea,
	helped: fc.boolean(),
	begun: fc.array(anyArea).map((begun) => new Set(begun.map((area) => areaSkillId('a', area))))
});
const shownBy = ({ recall, misread, area, helped, begun }: typeof anyShown extends fc.Arbitrary<infer T> ? T : never) =>
	reviewsOf({ sheet: { recall, misread }, fault: { area } }, { family: 'a', at: 1000, minutes: 6, helped, begun });

describe('what a callout adds to the log', () => {
	it('is its main skill first, as the sheet says, and never better than laboured with help', () => {
		fc.assert(
			fc.property(anyShown, (shown) => {
				const [main] = shownBy(shown);
				expect(main).toMatchObject({ skill: areaSkillId('a', shown.area), at: 1000, minutes: 6 });
				if (!shown.helped) expect(main.recall).toBe(shown.recall);
				else expect(main.recall).toBe(shown.recall === 'lost' ? 'lost' : 'laboured');
			})
		);
	});

	it('is each other area misread, once, as lost, where it has been begun; and nothing else', () => {
		fc.assert(
			fc.property(anyShown, (shown) => {
				const [, ...others] = shownBy(shown);
				const wanted = new Set(
					shown.misread
						.filter((area) => area !== shown.area && shown.begun.has(areaSkillId('a', area)))
						.map((area) => areaSkillId('a', area))
				);
				expect(others.map(({ skill }) => skill).toSorted()).toEqual([...wanted].toSorted());
				// The main line has all of the minutes.
				expect(others.every(({ recall, minutes }) => recall === 'lost' && minutes === 0)).toBe(true);
			})
		);
	});

	it('of a drill is what was said of the answer', () => {
		expect(drillReview({ recall: 'laboured' }, 'gas-sums', 5, 1.5)).toEqual({
			skill: 'drill/gas-sums',
			at: 5,
			recall: 'laboured',
			minutes: 1.5
		});
	});
});
