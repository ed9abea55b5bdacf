/** What a learner has done over time: minutes by week, how callouts were worked, and what stated sureness was worth. */
import { sureness, type Sureness } from '#shared/callout/action.ts';
import { shareOf, type Share } from '#shared/quantity/wilson.ts';
import { dayOf, startOfDay, weekOf } from '../memory/learner-day.ts';
import type { CalloutMeasures } from './measures.ts';
import type { Review } from '../skill.ts';

export interface Week {
	/** When its Monday began by the learner's day [ms since 1970]. */
	readonly from: number;
	readonly minutes: number;
	/** Callouts and drills; skills shown inside another's callout are not counted again. */
	readonly practices: number;
}

/**
 * Every week from the first in the log to the present one, those without practice too.
 * @param now [ms since 1970]
 */
export function minutesByWeek(log: readonly Review[], now: number, zone: string): Week[] {
	const own = log.filter(({ minutes }) => minutes > 0).map(({ at, minutes }) => ({ monday: weekOf(dayOf(at, zone)), minutes }));
	if (own.length === 0) return [];
	const weeks: Week[] = [];
	const last = Math.max(weekOf(dayOf(now, zone)), ...own.map(({ monday }) => monday));
	for (let monday = Math.min(...own.map((one) => one.monday)); monday <= last; monday += 7) {
		const within = own.filter((one) => one.monday === monday);
		const minutes = within.reduce((sum, one) => sum + one.minutes, 0);
		weeks.push({ from: startOfDay(monday, zone), minutes, practices: within.length });
	}
	return weeks;
}

/** A callout's measures with when it ended [ms since 1970]. */
export type Dated = CalloutMeasures & { readonly at: number };

/** How the last few callouts up to and with one were worked. */
export interface Figures {
	readonly at: number;
	/** Sound parts changed in each callout, on average. */
	readonly soundParts: number;
	/** Safety rules breached in each callout, on average; and those of them that are dangerous. */
	readonly breaches: number;
	readonly dangerous: number;
	/** Of callouts in which something was done or seen: the complaint seen under its demand before any work. */
	readonly verifiedFirst: Share;
	/** Of those cured: proved. */
	readonly proved: Share;
}

/** How many callouts a figure over time is taken from: a judgement of ours, enough to steady it and few enough to see a change. */
export const figuresOf = 10;

/** One line for each callout, in order of time, over the last `span` up to it. */
export function figuresOverTime(measures: readonly Dated[], span: number = figuresOf): Figures[] {
	const ordered = measures.toSorted((a, b) => a.at - b.at);
	return ordered.map(({ at }, index) => ({ at, ...figures(ordered.slice(Math.max(0, index + 1 - span), index + 1)) }));
}

function figures(some: readonly CalloutMeasures[]): Omit<Figures, 'at'> {
	const mean = (of: (one: CalloutMeasures) => number) => some.reduce((sum, one) => sum + of(one), 0) / some.length;
	const share = (of: (one: CalloutMeasures) => boolean | null) => {
		const told = some.map(of).filter((one) => one !== null);
		return shareOf(told.filter(Boolean).length, told.length);
	};
	return {
		soundParts: mean(({ soundParts }) => soundParts),
		breaches: mean(({ breaches }) => breaches),
		dangerous: mean(({ dangerous }) => dangerous),
		verifiedFirst: share(({ verifiedFirst }) => verifiedFirst),
		proved: share(({ proved }) => proved)
	};
}

/** How often remedies cured of which the learner said so. */
export interface Calibrated extends Share {
	readonly sure: Sureness;
}

/** From guess to proved. Somebody well calibrated cures nearly always when they say proved, and seldom when they guess. */
export function calibration(measures: readonly Pick<CalloutMeasures, 'stated'>[]): Calibrated[] {
	const all = measures.flatMap(({ stated }) => stated);
	return sureness.map((sure) => {
		const said = all.filter((one) => one.sure === sure);
		return { sure, ...shareOf(said.filter(({ cured }) => cured).length, said.length) };
	});
}
