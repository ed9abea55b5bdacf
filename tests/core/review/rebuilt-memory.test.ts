import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Memory } from '#shared/review/memory/memory.ts';
import { defaultScheduler, memoryAfter, remember } from '#shared/review/memory/schedule.ts';
import type { Review } from '#shared/review/skill.ts';
import { anyLog, anyScheduler } from './any-log.ts';

describe('what is kept and what the log gives', () => {
	it('agree to the last digit, review by review, through a row of text and back', () => {
		fc.assert(
			fc.property(anyLog(), anyScheduler, (log, scheduler) => {
				const kept = new Map<string, string>();
				log.forEach((review, index) => {
					const text = kept.get(review.skill);
					const before = text === undefined ? null : (JSON.parse(text) as Memory);
					kept.set(review.skill, JSON.stringify(memoryAfter(before, review, scheduler)));
					const rebuilt = remember(log.slice(0, index + 1), scheduler).get(review.skill);
					expect(kept.get(review.skill)).toBe(JSON.stringify(rebuilt));
				});
			})
		);
	});

	it('does not depend on the order in which the log is listed', () => {
		const distinct = anyLog().map((log) => log.map((review, index) => ({ ...review, at: review.at + index })));
		fc.assert(
			fc.property(
				distinct.chain((log) => fc.tuple(fc.constant(log), fc.shuffledSubarray(log, { minLength: log.length }))),
				([log, shuffled]) => {
					const sorted = ([a]: [string, Memory], [b]: [string, Memory]) => (a < b ? -1 : 1);
					expect([...remember(shuffled, defaultScheduler)].sort(sorted)).toEqual([...remember(log, defaultScheduler)].sort(sorted));
				}
			)
		);
	});

	it('a review earlier than the last is refused: the log is to be read again', () => {
		const review: Review = { skill: 'a/gas', at: 1000, recall: 'sound', minutes: 5 };
		const memory = memoryAfter(null, review, defaultScheduler);
		expect(() => memoryAfter(memory, { ...review, at: 999 }, defaultScheduler)).toThrow(RangeError);
	});

	it('counts reviews, and as lapses those lost that were shown before', () => {
		const at = Date.UTC(2026, 0, 5, 20);
		const log = (['lost', 'sound', 'lost', 'laboured'] as const).map((recall, day) => ({
			skill: 'a/gas',
			at: at + day * 86_400_000,
			recall,
			minutes: 5
		}));
		expect(remember(log, defaultScheduler).get('a/gas')).toMatchObject({ reviews: 4, lapses: 1, shown: 'laboured', last: log[3].at });
	});
});
