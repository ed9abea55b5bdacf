/** Three callouts and a drill on exactly what differs: faults of the family met on which a path learnt on the known ones would go astray. */
import { chance, mostSeed, type Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault } from '#shared/scenario/schema.ts';
import type { Generator } from '../drills/drill.ts';
import { shuffled } from '../drills/draw.ts';
import type { RoundItem } from '../round/round.ts';
import { areaSkillId, drillSkillId } from '../skills.ts';
import { isReading } from './difference.ts';
import type { Differences } from './differences.ts';

/** What it all is to take, the differences read first [min]. */
export const refresherMinutes = 10;
/**
 * By the clock of somebody who knows the trade: the reading of the sheet, the drill, and each of three callouts [min]. A judgement of ours, and
 * less than half of what the curriculum allows an apprentice; what it took is shown beside it.
 */
const minutes = { reading: 1, drill: 1 };
const mostCallouts = 3;
const calloutMinutes = (refresherMinutes - minutes.reading - minutes.drill) / mostCallouts;

/**
 * What makes up the score of a fault, 0 to 1. `shown`: of the checks that show it, the share that misleads: wholly where it reads otherwise on
 * a sound appliance, in part where the known families have no such check. `cure`: what cures it first is not to be had on them. `unknown`: they
 * have no such fault. Judgements of ours.
 */
const weights = { shown: 0.7, cure: 0.2, unknown: 0.1 };
const newCheck = 0.5;
/** Within an area any fault may be met whose score is at least this share of the area's best. */
const nearBest = 0.75;

export interface Compared {
	readonly met: Pack;
	/** Not empty. */
	readonly known: readonly Pack[];
	readonly differences: Differences;
}

/** How far a path learnt on the known families would go astray on a fault of the one met, 0 to 1. */
export function astray(fault: Fault, { met, known, differences }: Compared): number {
	const otherwise = new Set(differences.list.filter(isReading).map(({ check }) => check));
	const has = (ids: (pack: Pack) => readonly { readonly id: string }[], id: string) =>
		known.some((pack) => ids(pack).some((one) => one.id === id));
	const misleading = fault.shown.map((check) => (otherwise.has(check) ? 1 : has(({ checks }) => checks, check) ? 0 : newCheck));
	const shown = misleading.reduce<number>((sum, one) => sum + one, 0) / misleading.length;
	const first = met.remedies.find(({ id }) => id === fault.cured[0]);
	const cure = first && !has(({ remedies }) => remedies, first.id) ? 1 : 0;
	const unknown = has(({ faults }) => faults, fault.id) ? 0 : 1;
	return weights.shown * shown + weights.cure * cure + weights.unknown * unknown;
}

/**
 * Faults of up to three areas, those areas first in which a path would go furthest astray; which of an area's worst is drawn, and their order too,
 * so that nothing tells which is which.
 */
export function differingFaults(compared: Compared, draw: Chance): Fault[] {
	const scored = compared.met.faults.map((fault) => ({ fault, score: astray(fault, compared) })).filter(({ score }) => score > 0);
	const areas = shuffled(draw, [...new Set(scored.map(({ fault }) => fault.area))]).map((area) => {
		const own = scored.filter(({ fault }) => fault.area === area);
		const best = Math.max(...own.map(({ score }) => score));
		return { best, near: own.filter(({ score }) => score >= nearBest * best) };
	});
	const furthest = areas.toSorted((a, b) => b.best - a.best).slice(0, mostCallouts);
	const faults = furthest.map(({ near }) => draw.pick(near, ({ fault, score }) => score * fault.weight).fault);
	return shuffled(draw, faults);
}

/**
 * The items of a refresher: a drill of the firing sequence of the family met where one can be made, then the callouts.
 * @param generators those that can make a drill now
 * @param seed       the same seed gives the same items
 */
export function refresherItems(compared: Compared, generators: readonly Generator[], seed: number): RoundItem[] {
	const { met } = compared;
	const draw = chance(seed, 'refresher', met.hash);
	const anySeed = () => draw.whole(0, mostSeed);
	const usable = generators.filter(({ drill, needs, offers }) => {
		return drill === 'sequence' && needs !== 'evidence' && (offers?.({ pack: met, table: null }) ?? true);
	});
	const drills = usable.length === 0 ? [] : [draw.pick(usable)];
	return [
		...drills.map(({ id, drill, needs }): RoundItem => {
			const family = needs === 'nothing' ? null : met.family.id;
			return { kind: 'drill', skill: drillSkillId(drill), why: 'differs', minutes: minutes.drill, seed: anySeed(), generator: id, family };
		}),
		...differingFaults(compared, draw).map(({ id, area }): RoundItem => {
			const skill = areaSkillId(met.family.id, area);
			return { kind: 'callout', skill, why: 'differs', minutes: calloutMinutes, seed: anySeed(), family: met.family.id, fault: id };
		})
	];
}
