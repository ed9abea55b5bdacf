/** The look that a remedy owes before it may be called proved: which one, what it costs, what it is likely to pay. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Check } from '#shared/scenario/schema.ts';
import type { Choice } from './choice.ts';
import { columnKey, tableFacts } from './column-facts.ts';
import type { EvidenceTable, Suspicion } from './evidence.ts';
import type { Evidence } from './likelihood.ts';
import { costOf, planCheck } from './plan.ts';
import type { Situation } from './plan.ts';
import { isShown, spokenFor, suspectIndex } from './proof.ts';
import { shownFrom, timesOfMachines } from './speaks-for.ts';

/** Taking note of a reading costs at least this much of the engineer's time [min], so that idle looks are not free. */
const attentionMinutes = 1;

export const attentionCost = (pack: Pack): number => costOf(pack, { minutes: attentionMinutes, spent: 0 });

/** What of a visit decides which looks are owed. */
export interface Looked extends Situation {
	/** Columns read since the last remedy. */
	readonly taken: ReadonlySet<string>;
	/** What was read at any time. */
	readonly read: readonly Evidence[];
}

export interface Look {
	readonly check: Check;
	readonly demand: Demand;
	/** [currency]; with what may have to be looked at besides, where it does not show the suspect every time. */
	readonly cost: number;
	/** How likely the remedy is. */
	readonly chance: number;
	/** Share of what is still wanting that a column is likely to bring, by its key; 1 where it shows the suspect for certain. */
	readonly brings: ReadonlyMap<string, number>;
}

/** What anyone would notice comes with the demand, and is no choice of its own. */
export const choiceOf = ({ check, demand }: Pick<Look, 'check' | 'demand'>): Choice =>
	check.noticed ? { kind: 'demand', demand } : { kind: 'check', check: check.id, demand };

/** By remedy. Remedies whose suspect nothing has shown yet are weighed with their look, by whatever way they come to be done. */
export type LooksOwed = ReadonlyMap<string, Look>;

/** A column that brings less than this is no look at the suspect. */
const leastBrought = 0.1;

export function looksOwed(pack: Pack, table: EvidenceTable, standing: Looked, belief: Suspicion): LooksOwed {
	return new Map(
		pack.remedies.flatMap(({ id }, index): [string, Look][] => {
			if (isShown(pack, table, belief.faults, standing.read, id)) return [];
			const look = cheapestLook(pack, table, standing, belief, id, Math.min(1, belief.remedies[index]));
			return look ? [[id, look]] : [];
		})
	);
}

/** The look that costs least for what it brings; null where none that is still open can show the suspect. */
function cheapestLook(pack: Pack, table: EvidenceTable, standing: Looked, belief: Suspicion, remedy: string, chance: number): Look | null {
	const suspect = suspectIndex(pack, belief.faults, remedy);
	if (suspect < 0) return null;
	const spoken = spokenFor(pack, table, suspect, standing.read);
	const brings = new Map<string, number>();
	let best: Pick<Look, 'check' | 'demand' | 'cost'> | null = null;
	for (const facts of tableFacts(pack, table).all) {
		const { check } = facts;
		const { demand } = facts.column;
		const key = columnKey(check.id, demand);
		if (!pack.faults[suspect].shown.includes(check.id) || standing.taken.has(key)) continue;
		const share = broughtBy(pack, table, belief, suspect, timesOfMachines(pack, table, suspect, facts), spoken, check.id);
		const plan = share < leastBrought ? null : planCheck(pack, standing, check, demand);
		if (!plan) continue;
		brings.set(key, share);
		const cost = (costOf(pack, plan) + attentionCost(pack)) / share;
		if (!best || cost < best.cost) best = { check, demand, cost };
	}
	return best && { ...best, chance, brings };
}

/** Share of what is wanting, counted in logarithms as likelihoods are, averaged over the machines that may be this one. */
function broughtBy(
	pack: Pack,
	table: EvidenceTable,
	{ weights }: Suspicion,
	suspect: number,
	times: Float64Array,
	spoken: ReadonlyMap<string, number>,
	check: string
): number {
	const { from, to } = tableFacts(pack, table);
	const all = [...spoken.values()].reduce((product, one) => product * one, 1);
	const own = spoken.get(check) ?? 1;
	const wanting = Math.log(shownFrom / all);
	const count = to[suspect] - from[suspect];
	let brought = 0;
	let total = 0;
	for (let row = 0; row < count; row++) {
		const weight = weights[from[suspect] + row];
		const speaks = times[Math.floor((row * times.length) / count)];
		brought += weight * Math.min(1, Math.log(Math.max(1, speaks / own)) / wanting);
		total += weight;
	}
	return total > 0 ? brought / total : 0;
}
