/** With what has been read so far: which remedy is proved, if any. */
import type { EvidenceTable, Suspicion } from '#shared/diagnosis/evidence.ts';
import { enoughRows } from '#shared/diagnosis/suspicion.ts';
import { isShown, suspectOf } from '#shared/diagnosis/proof.ts';
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault } from '#shared/scenario/schema.ts';
import type { Generator } from '../../drill.ts';
import { oneDrill, type Option } from '../answers.ts';
import { firstOf, shuffled } from '../../draw.ts';
import { evidenceOf } from '../ground.ts';
import { arrive, believed, lookAbout, openChecks, standingOf, visitGiven, withCheck, type Visit } from '../visit.ts';
import { faultName } from '../words.ts';

const id = 'which-remedy-is-proved';
const quickS = 40;
const noneYet = 'none-yet';
/** A chance so near the line that proof begins at is not asked about. */
const near = 0.08;
/** Checks aimed at the chief suspect before giving up on a proof. */
const mostAimed = 3;
const offered = 3;

interface Stand {
	readonly index: number;
	readonly chance: number;
	readonly shown: boolean;
	readonly suspect: Fault;
}

export const whichProved: Generator = {
	id,
	drill: 'next-check',
	needs: 'evidence',
	make(ground, seed) {
		const { pack, table } = evidenceOf(ground);
		const { visit, options, right, stands } = firstOf(id, seed, (stream) => drawProved(pack, table, stream));
		return oneDrill(
			{
				drill: 'next-check',
				family: pack.family.id,
				asks: 'What was read so far proves which of these?',
				given: visitGiven(pack, visit)
			},
			[...options, { id: noneYet, says: 'None of them yet', misconception: unseenProof }],
			right,
			{ worked: [...stands.map((stand) => standWords(pack, stand)), proofRule], quickS }
		);
	}
};

const unseenProof = 'Proof was not taken as proof: the fault is shown and next to nothing else fits. More checks only cost time.';
const proofRule =
	'Proved means: next to nothing else fits what was read, and something read shows the fault itself, as no sound appliance would.';

function drawProved(pack: Pack, table: EvidenceTable, stream: Chance) {
	const here = arrive(pack, stream);
	if (!here) return null;
	const wantsProof = stream.uniform() < 0.6;
	const visit = wantsProof ? aimed(pack, table, here) : lookAbout(pack, table, here, stream, stream.whole(1, 3));
	const belief = believed(pack, table, visit);
	if (belief.effective < enoughRows) return null;
	const { proved } = pack.rules.proof;
	const stands = standsOf(pack, table, belief, visit);
	if (stands.some(({ chance, shown }) => shown && Math.abs(chance - proved) < near)) return null;
	const isProved = ({ chance, shown }: Stand) => shown && chance >= proved;
	// Two remedies of one fault may both be proved: one of them is offered.
	const [right] = shuffled(stream, stands.filter(isProved));
	if (wantsProof !== (right !== undefined)) return null;
	const others = distinct(stands.filter((stand) => !isProved(stand))).slice(0, offered + 1);
	const wrong = shuffled(stream, others).slice(0, right ? offered - 1 : offered);
	if (wrong.length < 2) return null;
	const offers = shuffled(stream, right ? [right, ...wrong] : wrong);
	const options = offers.map((stand) => optionOf(pack, stand));
	return { visit, options, right: right ? pack.remedies[right.index].id : noneYet, stands: offers };
}

/** The chief suspect looked at directly, again and again until one is shown. */
function aimed(pack: Pack, table: EvidenceTable, visit: Visit): Visit {
	let now = visit;
	for (let round = 0; round < mostAimed; round++) {
		const { faults } = believed(pack, table, now);
		const suspect = pack.faults[faults.indexOf(Math.max(...faults))];
		const [quickest] = openChecks(pack, now)
			.filter(({ check }) => suspect.shown.includes(check.id) && !now.readings.some((taken) => taken.check === check.id))
			.sort((a, b) => a.plan.minutes - b.plan.minutes);
		if (!quickest) return now;
		now = withCheck(now, quickest.check, quickest.demand, quickest.plan);
	}
	return now;
}

/** Each remedy that cures anything, the likeliest first. */
function standsOf(pack: Pack, table: EvidenceTable, belief: Suspicion, visit: Visit): Stand[] {
	const { read } = standingOf(visit);
	return pack.remedies
		.flatMap((remedy, index): Stand[] => {
			const suspect = suspectOf(pack, belief.faults, remedy.id);
			return suspect
				? [{ index, chance: belief.remedies[index], shown: isShown(pack, table, belief.faults, read, remedy.id), suspect }]
				: [];
		})
		.sort((a, b) => b.chance - a.chance || a.index - b.index);
}

/** One remedy for a suspect: two ways of curing one fault are no two answers. */
const distinct = (stands: readonly Stand[]): Stand[] =>
	stands.filter(({ suspect }, at) => stands.findIndex((other) => other.suspect === suspect) === at);

function optionOf(pack: Pack, { index, chance, shown }: Stand): Option {
	const { id, name } = pack.remedies[index];
	const { proved, likely } = pack.rules.proof;
	const misconception =
		chance >= proved && !shown
			? 'The likeliest was taken for proved: nothing that was read shows it yet.'
			: chance >= likely
				? 'Likely was taken for proved: something else still fits.'
				: shown
					? 'What was read shows something like it, but does not bear it out.'
					: 'A guess: nothing read points to it more than to others.';
	return { id, says: name, misconception };
}

function standWords(pack: Pack, { index, chance, shown, suspect }: Stand): string {
	const { proved, likely } = pack.rules.proof;
	const held =
		chance >= proved
			? 'next to nothing else fits'
			: chance >= likely
				? 'likely, but something else still fits'
				: 'not likely by what was read';
	const seen = shown ? 'something read shows it' : 'nothing read shows it';
	return `${pack.remedies[index].name}, for ${faultName(suspect)}: ${held}, and ${seen}.`;
}
