/** A complaint and what has been read so far: which faults are ruled out by it all together, and which are still in. */
import { tableFacts, columnKey } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { enoughRows } from '#shared/diagnosis/suspicion.ts';
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Generator } from '../../drill.ts';
import { severalDrill } from '../answers.ts';
import { firstOf } from '../../draw.ts';
import { evidenceOf } from '../ground.ts';
import { faultWords, likelihoodByFault } from '../likely.ts';
import { arrive, believed, lookAbout, visitGiven, type Taken, type Visit } from '../visit.ts';
import { checkUnder, readingText } from '../words.ts';
import { fateLines, pickFates, ticksOf, type Fate } from './fate.ts';

const quickS = 50;
/** Held at least so likely when the complaint was heard, or nothing was there to be ruled out. */
const worthAsking = 0.008;
/** Held at least so likely now: still in. What marking holds as surely out is out; what lies between is not asked. */
const still = 0.05;

export const ruledOutTogether = together(
	'ruled-out-by-readings-together',
	'out',
	'Which of these faults do all of these together rule out?'
);
export const stillIn = together('still-in', 'in', 'Which of these faults are still in?');

function together(id: string, wanted: 'out' | 'in', asks: string): Generator {
	return {
		id,
		drill: 'ruled-out',
		needs: 'evidence',
		make(ground, seed) {
			const { pack, table } = evidenceOf(ground);
			const { visit, fates, ticks } = firstOf(id, seed, (stream) => {
				const visit = arrive(pack, stream);
				return visit && drawFates(pack, table, lookAbout(pack, table, visit, stream, stream.whole(2, 4)), stream, wanted);
			});
			return severalDrill({ drill: 'ruled-out', family: pack.family.id, asks, given: visitGiven(pack, visit) }, ticks, {
				worked: fateLines(pack, fates),
				quickS
			});
		}
	};
}

function drawFates(pack: Pack, table: EvidenceTable, visit: Visit, stream: Chance, wanted: 'out' | 'in') {
	const first = believed(pack, table, { ...visit, readings: [] }).faults;
	const now = believed(pack, table, visit);
	// Where few machines are left to speak, belief is widened and too much is left open.
	if (now.effective < enoughRows) return null;
	const { surelyOut } = pack.rules.weighing.judged;
	const faults = [...pack.faults.keys()].sort((a, b) => first[b] - first[a]);
	const picked = pickFates(
		stream,
		faults.filter((fault) => now.faults[fault] <= surelyOut && first[fault] >= worthAsking),
		faults.filter((fault) => now.faults[fault] >= still)
	);
	if (!picked) return null;
	const told = tellers(pack, table, visit.readings);
	if (told.length === 0) return null;
	const fates = [
		...picked.outs.map((fault) => outFate(pack, table, told, fault)),
		...picked.ins.map((fault) => inFate(pack, fault, visit.readings))
	];
	return { visit, fates, ticks: ticksOf(pack, stream, fates, wanted) };
}

/** A reading with its likelihood by fault, as a share of the greatest. */
interface Teller {
	readonly reading: Taken;
	readonly shares: Float64Array;
}

function tellers(pack: Pack, table: EvidenceTable, readings: readonly Taken[]): Teller[] {
	const { byKey } = tableFacts(pack, table);
	return readings.flatMap((reading) => {
		const facts = byKey.get(columnKey(reading.check, reading.demand));
		if (!facts) return [];
		const likelihoods = likelihoodByFault(pack, table, { facts, value: reading.value });
		const best = Math.max(...likelihoods);
		return [{ reading, shares: likelihoods.map((likelihood) => likelihood / best) }];
	});
}

/** A reading speaks loudly against a fault that makes it so much less likely. */
const loud = 0.1;

function outFate(pack: Pack, table: EvidenceTable, told: readonly Teller[], fault: number): Fate {
	const { byKey } = tableFacts(pack, table);
	const [loudest] = [...told].sort((a, b) => a.shares[fault] - b.shares[fault]);
	const { reading, shares } = loudest;
	const { of, demand } = reading;
	const facts = byKey.get(columnKey(of.id, demand))!;
	const alone = shares[fault] <= loud ? '' : 'No one reading is enough, but together they are. Most against it: ';
	return {
		fault,
		isOut: true,
		because: `${alone}${checkUnder(pack, of, demand)}: ${readingText(reading, of)}; with it, most: ${faultWords(pack, table, facts, fault)}.`,
		misconception: of.noticed
			? 'Kept in, though what anyone would notice speaks against it: what is free to see was not weighed.'
			: pack.faults[fault].shown.includes(of.id)
				? 'Kept in, though a check that shows it was taken and did not find it.'
				: 'Kept in because no check was of that part: readings elsewhere count against every fault that would have changed them.'
	};
}

function inFate(pack: Pack, fault: number, readings: readonly Taken[]): Fate {
	const { shown, area, because } = pack.faults[fault];
	const looked = readings.some(({ check }) => shown.includes(check));
	return {
		fault,
		isOut: false,
		because: `What was read fits it. ${because}`,
		misconception: looked
			? 'Ruled out by a check that does show it, though what it read fits the fault.'
			: readings.some(({ of }) => of.area === area && !of.noticed)
				? 'Ruled out by a check of the same part of the appliance that reads alike with that fault and without it.'
				: 'Ruled out though nothing read speaks against it: it is only not the likeliest.'
	};
}
