/** A firing sequence that got no further than one step: what cannot, or must, have happened in this run. */
import type { Generator } from '../../drill.ts';
import { severalDrill } from '../answers.ts';
import { firstOf, shuffled, someOf } from '../../draw.ts';
import { packOf } from '../ground.ts';
import { demandName } from '../words.ts';
import { drawSequence, hasSequence, sequenceLines } from './steps.ts';

const id = 'sequence-where-it-stopped';
const fewest = 4;
const offered = { from: 3, to: 5 };
const quickS = 30;

export const stoppedAt: Generator = {
	id,
	drill: 'sequence',
	needs: 'family',
	offers: hasSequence(fewest),
	make(ground, seed) {
		const pack = packOf(ground);
		const { sequence, last, at, asksOut, ticks } = firstOf(id, seed, (stream) => {
			const sequence = drawSequence(stream, pack, fewest);
			if (!sequence) return null;
			const { steps } = sequence;
			const at = stream.whole(1, steps.length - 2);
			const [before, after] = [steps.slice(0, at), steps.slice(at + 1)];
			const count = stream.whole(offered.from, offered.to);
			const outs = someOf(stream, after, stream.whole(1, Math.min(after.length, count - 1)));
			const ins = someOf(stream, before, count - outs.length);
			const asksOut = stream.uniform() < 0.5;
			const ticks = shuffled(stream, [...outs, ...ins]).map((step) => ({
				id: step.id,
				says: step.does,
				right: outs.includes(step) === asksOut,
				misconception: outs.includes(step)
					? 'Each step waits for the one before: once one fails to come, nothing after it does.'
					: 'That comes before the place where it stopped, and must have happened for it to get so far.'
			}));
			return { sequence, last: steps[at], at, asksOut, ticks };
		});
		return severalDrill(
			{
				drill: 'sequence',
				family: pack.family.id,
				asks: `The sequence ran as it should up to here, began this step and got no further. Which of these ${asksOut ? 'cannot' : 'must'} have happened in this run?`,
				given: [
					{ name: 'Demand', value: demandName(pack, sequence.demand) },
					{ name: 'Got no further than', value: last.does }
				]
			},
			ticks,
			{
				worked: [
					...sequenceLines(pack, sequence),
					`It stopped in step ${at + 1}: what comes before it happened, what comes after it did not.`
				],
				quickS
			}
		);
	}
};
