/** One reading, and the faults that it rules out by itself. */
import type { ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { healthyLikelihood } from '#shared/diagnosis/likelihood.ts';
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Generator } from '../../drill.ts';
import { severalDrill } from '../answers.ts';
import { firstOf } from '../../draw.ts';
import { evidenceOf } from '../ground.ts';
import { columnsAsked, faultWords, likelihoodByFault } from '../likely.ts';
import { setUp, takeOf, whyOf } from '../taken.ts';
import { readingGiven, readingText } from '../words.ts';
import { fateLines, pickFates, ticksOf, type Fate } from './fate.ts';

const id = 'ruled-out-by-one-reading';
const quickS = 40;
/** Against what explains the reading best, a fault so much less likely to give it is ruled out; one that is not less likely than this is in. */
const out = 1 / 25;
const still = 1 / 4;

interface One {
	readonly facts: ColumnFacts;
	readonly reading: { readonly value: number; readonly text: string };
	readonly household: string;
	readonly why: string;
	readonly outs: readonly number[];
	readonly ins: readonly number[];
}

export const ruledOutByOne: Generator = {
	id,
	drill: 'ruled-out',
	needs: 'evidence',
	make(ground, seed) {
		const { pack, table } = evidenceOf(ground);
		const { facts, reading, household, why, fates, ticks } = firstOf(id, seed, (stream) => {
			const one = drawOne(pack, table, stream);
			const picked = one && pickFates(stream, one.outs, one.ins);
			if (!one || !picked) return null;
			const fates = [
				...picked.outs.map((fault) => outFate(pack, table, one.facts, fault)),
				...picked.ins.map((fault) => inFate(pack, table, one.facts, fault))
			];
			return { ...one, fates, ticks: ticksOf(pack, stream, fates, 'out') };
		});
		const { check, column } = facts;
		return severalDrill(
			{
				drill: 'ruled-out',
				family: pack.family.id,
				asks: 'Which of these faults does this one reading rule out?',
				given: [{ name: 'House', value: household }, ...readingGiven(pack, check, column.demand, reading)]
			},
			ticks,
			{
				worked: [`${readingText(reading, check)}: ${why}`, ...fateLines(pack, fates), `What can make it mislead: ${check.misleads}`],
				quickS
			}
		);
	}
};

function drawOne(pack: Pack, table: EvidenceTable, stream: Chance): One | null {
	const columns = columnsAsked(pack, table);
	const facts = stream.pick(columns, ({ check }) => 1 / check.under.length);
	const { check, column } = facts;
	// Half of the time with a fault that the check is there to show.
	const showing = pack.faults.filter(({ shown }) => shown.includes(check.id));
	const hidden = showing.length > 0 && stream.uniform() < 0.5 ? stream.pick(showing) : stream.pick(pack.faults);
	const bench = setUp(pack, stream, hidden.id);
	const reading = takeOf(pack, bench, check, column.demand, stream);
	const likelihoods = likelihoodByFault(pack, table, { facts, value: reading.value });
	const best = Math.max(healthyLikelihood(facts, reading.value), ...likelihoods);
	const faults = [...pack.faults.keys()].sort((a, b) => nearness(b) - nearness(a));
	function nearness(fault: number): number {
		const { shown, area } = pack.faults[fault];
		return (shown.includes(check.id) ? 2 : 0) + (area === check.area || area === hidden.area ? 1 : 0);
	}
	return {
		facts,
		reading,
		household: bench.machine.household.says,
		why: whyOf(bench, check, column.demand),
		outs: faults.filter((fault) => likelihoods[fault] <= out * best),
		ins: faults.filter((fault) => likelihoods[fault] >= still * best)
	};
}

function outFate(pack: Pack, table: EvidenceTable, facts: ColumnFacts, fault: number): Fate {
	const isShown = pack.faults[fault].shown.includes(facts.check.id);
	return {
		fault,
		isOut: true,
		because: `With it, most would be: ${faultWords(pack, table, facts, fault)}.`,
		misconception: isShown
			? 'Kept in, though this very check shows that fault and did not find it.'
			: 'Kept in because the check is of another part: a reading counts against every fault that would have changed it.'
	};
}

function inFate(pack: Pack, table: EvidenceTable, facts: ColumnFacts, fault: number): Fate {
	const { area } = pack.faults[fault];
	return {
		fault,
		isOut: false,
		because: `With it, most: ${faultWords(pack, table, facts, fault)}. This fits.`,
		misconception:
			area === facts.check.area
				? 'Cleared because the check is of the same part of the appliance: with that fault it can read just so.'
				: 'Cleared without need: what this check reads does not change with that fault, or changes just so.'
	};
}
