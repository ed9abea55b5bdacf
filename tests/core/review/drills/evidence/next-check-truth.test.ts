import { beforeAll, expect, test } from 'vitest';
import type { Demand } from '#shared/appliance/model.ts';
import { columnKey } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { nextActions, regret, type Choice, type Standing } from '#shared/diagnosis/next-action.ts';
import { planCheck, planDemand } from '#shared/diagnosis/plan.ts';
import { suspicion } from '#shared/diagnosis/suspicion.ts';
import { openingSite } from '#shared/scenario/site.ts';
import { evidenceFor } from '$lib/server/evidence/evidence.ts';
import { combi } from '../../../../sampled.ts';
import { choiceIds, drillsOf, judgedOf, rightOf, visitIn, type Told } from './drilled.ts';

let table: EvidenceTable;
beforeAll(async () => (table = await evidenceFor(combi)));

/** Where the visit stands after these readings, each taken in turn from an appliance as it is found. */
function standingAfter({ complaint, readings }: Told): Standing {
	const found = { demand: 'none' as Demand, site: new Set(openingSite), fetched: new Set<string>() };
	const at = readings
		.filter(({ of }) => !of.noticed && of.way !== 'ask')
		.reduce((from, { of, demand }) => planCheck(combi, from, of, demand)!.after, planDemand(combi, found, complaint.proves.demand)!.after);
	return {
		...at,
		complaint,
		done: [],
		proof: 'none-due',
		taken: new Set(readings.map(({ check, demand }) => columnKey(check, demand))),
		read: readings
	};
}

const asChoice = (id: string): Choice => {
	const [check, demand] = id.split('.');
	return demand ? { kind: 'check', check: check!, demand: demand as Demand } : { kind: 'remedy', remedy: id };
};

test.each(['next-check-at-start', 'next-check-after-readings'])(
	'%s: valued beside the best and as closely, nothing offered comes near it',
	(id) => {
		const { justifiedRegret } = combi.rules.weighing;
		for (const drill of drillsOf(id, { pack: combi, table }, 8)) {
			const told = visitIn(combi, drill.question);
			const standing = standingAfter(told);
			const belief = suspicion(combi, table, told.complaint.id, told.readings);
			const [right] = rightOf(drill);
			const best = asChoice(right!);
			const among = nextActions(combi, table, belief, standing, best);
			const noise = justifiedRegret * among[0]!.expected;
			expect(regret(among, best)).toBeLessThan(0.01);
			const planOf = ({ check, demand }: Extract<Choice, { kind: 'check' }>) =>
				planCheck(
					combi,
					standing,
					combi.checks.find(({ id }) => id === check)!,
					demand
				)!;
			for (const other of choiceIds(drill.question).filter((choice) => choice !== right)) {
				// Called too soon to open up only where the best leaves all shut and is quicker.
				if (judgedOf(drill, [other]).misconception?.startsWith('Opened up too soon') && best.kind === 'check') {
					const plan = planOf(best);
					expect(plan.actions.filter(({ kind }) => kind === 'step')).toEqual([]);
					expect(plan.minutes).toBeLessThan(planOf(asChoice(other) as Extract<Choice, { kind: 'check' }>).minutes);
				}
				const choice = asChoice(other);
				const both = nextActions(combi, table, belief, standing, [best, choice]);
				expect(regret(both, choice)! - regret(both, best)!).toBeGreaterThan(0.9 * noise);
			}
		}
	}
);
