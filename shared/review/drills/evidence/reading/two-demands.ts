/** One check of one appliance under two demands: under which of them does it read as no sound appliance does? */
import type { Demand } from '#shared/appliance/model.ts';
import { columnKey, tableFacts } from '#shared/diagnosis/column-facts.ts';
import type { ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Observed } from '#shared/quantity/instrument.ts';
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault } from '#shared/scenario/schema.ts';
import type { Generator } from '../../drill.ts';
import { oneDrill, type Option } from '../answers.ts';
import { firstOf } from '../../draw.ts';
import { evidenceOf } from '../ground.ts';
import { soundWords, standsAmongSound } from '../likely.ts';
import { proneOf } from '../prone.ts';
import { setUp, takeOf, whyOf } from '../taken.ts';
import { demandName, faultName, readingText } from '../words.ts';
import { quickReadingS } from './tell.ts';

const id = 'same-check-two-demands';
/** Two readings take longer than one [s]. */
const quickS = quickReadingS + 10;

interface Side {
	readonly facts: ColumnFacts;
	readonly reading: Observed;
	readonly isSound: boolean;
	readonly why: string;
}
interface Pair {
	readonly fault: Fault;
	readonly household: string;
	readonly sides: readonly [Side, Side];
}
/** A check, two demands, and a fault with which it comes out as hoped. */
interface Lead {
	readonly facts: readonly [ColumnFacts, ColumnFacts];
	readonly fault: number;
	readonly apart: number;
}

export const twoDemands: Generator = {
	id,
	drill: 'reading',
	needs: 'evidence',
	make(ground, seed) {
		const { pack, table } = evidenceOf(ground);
		const { fault, household, sides } = firstOf(id, seed, (stream) => drawPair(pack, table, stream));
		const { check } = sides[0].facts;
		const [first, second] = sides.map(({ facts }) => demandName(pack, facts.column.demand));
		const apart = sides.filter(({ isSound }) => !isSound);
		const right = apart.length === 2 ? 'both' : apart.length === 0 ? 'neither' : apart[0] === sides[0] ? 'first' : 'second';
		return oneDrill(
			{
				drill: 'reading',
				family: pack.family.id,
				asks: 'The same check of one appliance, under two demands. Which reading is not that of a sound appliance?',
				given: [
					{ name: 'House', value: household },
					{ name: 'Check', value: check.name },
					{ name: 'How', value: check.how },
					...sides.map(({ facts, reading }) => ({ name: demandName(pack, facts.column.demand), value: readingText(reading, check) }))
				]
			},
			optionsOf(pack, sides, [first, second], right),
			right,
			{
				worked: [
					...sides.map(({ facts, isSound, why }) => {
						const name = demandName(pack, facts.column.demand);
						return `${name}. Sound ones: ${soundWords(pack, facts)}; this one is ${isSound ? 'as they are' : 'not'}. ${why}`;
					}),
					`What was wrong with it: ${faultName(fault)}. ${fault.because}`,
					`What can make it mislead: ${check.misleads}`
				],
				quickS
			}
		);
	}
};

const leads = new WeakMap<EvidenceTable, readonly Lead[]>();

/** Worked out once for a table. */
function leadsOf(pack: Pack, table: EvidenceTable): readonly Lead[] {
	let known = leads.get(table);
	if (!known) {
		const { byKey } = tableFacts(pack, table);
		const within = new Map(proneOf(pack, table).map((one) => [`${one.facts.index}/${one.fault}`, one.within]));
		known = pack.checks.flatMap((check) =>
			check.under.flatMap((one, at) =>
				check.under.slice(at + 1).flatMap((other) =>
					pack.faults.flatMap((_, fault): Lead[] => {
						const facts = [one, other].map((demand: Demand) => byKey.get(columnKey(check.id, demand)));
						const shares = facts.map((column) => (column ? within.get(`${column.index}/${fault}`) : undefined));
						if (!facts[0] || !facts[1] || shares.some((share) => share === undefined || (share > 0.2 && share < 0.8))) return [];
						return [{ facts: [facts[0], facts[1]], fault, apart: shares.filter((share) => share! <= 0.2).length }];
					})
				)
			)
		);
		leads.set(table, known);
	}
	return known;
}

function drawPair(pack: Pack, table: EvidenceTable, stream: Chance): Pair | null {
	const apart = stream.pick([0, 1, 1, 1, 2]);
	const offered = leadsOf(pack, table).filter((lead) => lead.apart === apart);
	if (offered.length === 0) return null;
	const check = stream.pick([...new Set(offered.map(({ facts }) => facts[0].check))]);
	const { facts, fault } = stream.pick(offered.filter((lead) => lead.facts[0].check === check));
	const bench = setUp(pack, stream, pack.faults[fault].id);
	const sides = facts.map((one): Side | null => {
		const { demand } = one.column;
		const reading = takeOf(pack, bench, check, demand, stream);
		const stands = standsAmongSound({ facts: one, value: reading.value });
		return stands === 'unclear' ? null : { facts: one, reading, isSound: stands === 'within', why: whyOf(bench, check, demand) };
	});
	if (!sides[0] || !sides[1]) return null;
	return { fault: pack.faults[fault], household: bench.machine.household.says, sides: [sides[0], sides[1]] };
}

function optionsOf(pack: Pack, sides: readonly [Side, Side], names: readonly string[], right: string): Option[] {
	const sound = sides.map(({ facts }) => soundWords(pack, facts));
	const carried = (at: number) =>
		`What a sound one reads under one demand was asked of it under another. "${names[at]}", sound ones: ${sound[at]}.`;
	const missed = (at: number) => `Passed as sound because it looks usual. "${names[at]}", sound ones: ${sound[at]}.`;
	// The first side that the choice gets wrong.
	const wrongly = (apart: readonly [boolean, boolean]) => {
		const at = apart.findIndex((is, side) => is === sides[side].isSound);
		return at < 0 ? '' : apart[at] ? carried(at) : missed(at);
	};
	const option = (id: string, says: string, apart: readonly [boolean, boolean]): Option => ({
		id,
		says,
		misconception: id === right ? '' : wrongly(apart)
	});
	return [
		option('first', `Only the first: ${names[0]}`, [true, false]),
		option('second', `Only the second: ${names[1]}`, [false, true]),
		option('both', 'Both', [true, true]),
		option('neither', 'Neither', [false, false])
	];
}
