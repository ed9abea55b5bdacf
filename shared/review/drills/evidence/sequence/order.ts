/** Some steps of a firing sequence, to be put in the order in which they happen. */
import type { Generator } from '../../drill.ts';
import { orderDrill } from '../answers.ts';
import { firstOf, shuffled, someOf } from '../../draw.ts';
import { packOf } from '../ground.ts';
import { demandName } from '../words.ts';
import { drawSequence, hasSequence, sequenceLines } from './steps.ts';

const id = 'sequence-order';
const fewest = 3;
const most = 6;
/** For each step to be placed [s]. */
const quickPerStepS = 8;

export const sequenceOrder: Generator = {
	id,
	drill: 'sequence',
	needs: 'family',
	offers: hasSequence(fewest),
	make(ground, seed) {
		const pack = packOf(ground);
		const { sequence, ordered, shown } = firstOf(id, seed, (stream) => {
			const sequence = drawSequence(stream, pack, fewest);
			if (!sequence) return null;
			const { steps } = sequence;
			const count = stream.whole(Math.min(4, steps.length), Math.min(most, steps.length));
			const chosen = someOf(stream, steps, count);
			const ordered = steps.filter((step) => chosen.includes(step)).map(({ id, does }) => ({ id, says: does }));
			const shown = shuffled(stream, ordered);
			// Offered in the right order already, there would be nothing to do.
			return shown.every((step, index) => step === ordered[index]) ? null : { sequence, ordered, shown };
		});
		return orderDrill(
			{
				drill: 'sequence',
				family: pack.family.id,
				asks: `Put these in the order in which they happen.${ordered.length < sequence.steps.length ? ' Not every step is among them.' : ''}`,
				given: [{ name: 'Demand', value: demandName(pack, sequence.demand) }]
			},
			ordered,
			shown,
			{ worked: sequenceLines(pack, sequence), quickS: quickPerStepS * ordered.length }
		);
	}
};
