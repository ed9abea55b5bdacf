/** Which of these is worth most now: on arrival, or with a few readings taken. */
import type { Choice } from '#shared/diagnosis/next-action.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Generator } from '../../drill.ts';
import { oneDrill, type Option } from '../answers.ts';
import { firstOf, shuffled } from '../../draw.ts';
import { evidenceOf } from '../ground.ts';
import { arrive, believed, lookAbout, standingOf, visitGiven, withAnswers } from '../visit.ts';
import { checkUnder, faultName } from '../words.ts';
import { drawOffers, type Lure, type Offer, type Offers } from './offers.ts';

const quickS = 40;

export const nextAtStart = nextCheck('next-check-at-start', [0, 0], [0, 2]);
export const nextAfterReadings = nextCheck('next-check-after-readings', [2, 3], [0, 1]);

/** @param checks, answers  from how few to how many are taken before the question */
function nextCheck(id: string, checks: readonly [number, number], answers: readonly [number, number]): Generator {
	return {
		id,
		drill: 'next-check',
		needs: 'evidence',
		make(ground, seed) {
			const { pack, table } = evidenceOf(ground);
			const { visit, offers, order } = firstOf(id, seed, (stream) => {
				const here = arrive(pack, stream);
				if (!here) return null;
				const asked = withAnswers(here, stream, stream.whole(...answers));
				const visit = lookAbout(pack, table, asked, stream, stream.whole(...checks));
				const offers = drawOffers(pack, table, visit, believed(pack, table, visit), standingOf(visit), stream);
				return offers && { visit, offers, order: shuffled(stream, [offers.best, ...offers.others]) };
			});
			return oneDrill(
				{
					drill: 'next-check',
					family: pack.family.id,
					asks: 'Which of these is worth most as the next thing to do?',
					given: visitGiven(pack, visit)
				},
				order.map((offer) => optionOf(pack, offer)),
				idOf(offers.best.valued.choice),
				{ worked: workedOf(pack, offers), quickS }
			);
		}
	};
}

const idOf = (choice: Choice): string =>
	choice.kind === 'check' ? `${choice.check}.${choice.demand}` : choice.kind === 'remedy' ? choice.remedy : choice.kind;

function saysOf(pack: Pack, choice: Choice): string {
	if (choice.kind === 'remedy') return `No more checks. ${pack.remedies.find(({ id }) => id === choice.remedy)?.name ?? choice.remedy}`;
	const check = choice.kind === 'check' && pack.checks.find(({ id }) => id === choice.check);
	return check && choice.kind === 'check' ? checkUnder(pack, check, choice.demand) : choice.kind;
}

function optionOf(pack: Pack, { valued, lure }: Offer): Option {
	return { id: idOf(valued.choice), says: saysOf(pack, valued.choice), misconception: lure ? lured[lure] : '' };
}

const lured: Record<Lure, string> = {
	'tells-most':
		'It tells a great deal, but not the most for its time: what matters is which remedy is due, and what the whole visit comes to.',
	swap: 'A part changed on suspicion. However likely it is, a sound part may go in the bin and the fault stay.',
	'tells-nothing': 'Quick, but whatever it reads, nearly nothing would change: what it tells is known already or does not bear on this.',
	'opens-up': 'Opened up too soon: something quicker tells as much before anything is taken apart.'
};

function workedOf(pack: Pack, { best, others, parts }: Offers): string[] {
	const tells = parts ? ` It tells ${faultName(pack.faults[parts[0]])} from ${faultName(pack.faults[parts[1]])}, both still likely.` : '';
	return [
		`${saysOf(pack, best.valued.choice)}: ${takes(best)}, and from here the whole visit comes out cheapest by it.${tells}`,
		...[...others]
			.sort((a, b) => a.valued.expected - b.valued.expected)
			.map((offer) => {
				const more = offer.valued.expected - best.valued.expected;
				return `${saysOf(pack, offer.valued.choice)}: ${takes(offer)}; in the end about ${pack.rules.currency}${roughly(more)} more.`;
			}),
		'Costs are time at the labour rate of the rules and parts, averaged over what the fault may be.'
	];
}

/** Getting there, setting up and the work itself. */
const takes = ({ valued }: Offer): string => {
	const minutes = Math.max(1, Math.round(valued.plan.minutes));
	return `about ${minutes} ${minutes === 1 ? 'minute' : 'minutes'} with all that it needs`;
};

/** No finer than the estimate bears: to 1 up to 10, to 5 up to 100, to 10 above. */
function roughly(cost: number): number {
	const step = cost < 10 ? 1 : cost < 100 ? 5 : 10;
	return Math.max(step, Math.round(cost / step) * step);
}
