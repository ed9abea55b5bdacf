/** One step of a firing sequence has just happened: what comes next, or what came just before it. */
import type { Generator } from '../../drill.ts';
import { oneDrill, type Option } from '../answers.ts';
import { firstOf, shuffled, someOf } from '../../draw.ts';
import { packOf } from '../ground.ts';
import { demandName } from '../words.ts';
import { drawSequence, hasSequence, sequenceLines, type Step } from './steps.ts';

const id = 'sequence-what-comes-next';
const fewest = 4;
const offered = 4;
const quickS = 20;

export const nextStep: Generator = {
	id,
	drill: 'sequence',
	needs: 'family',
	offers: hasSequence(fewest),
	make(ground, seed) {
		const pack = packOf(ground);
		const { sequence, here, right, way, options } = firstOf(id, seed, (stream) => {
			const sequence = drawSequence(stream, pack, fewest);
			if (!sequence) return null;
			const { steps } = sequence;
			const way = stream.pick([1, 1, -1] as const);
			const at = way > 0 ? stream.whole(0, steps.length - 2) : stream.whole(1, steps.length - 1);
			const right = steps[at + way];
			const others = pack.family.sequence.filter((step) => !step.throughout && step !== steps[at] && step !== right);
			const options = shuffled(stream, [right, ...someOf(stream, others, offered - 1)]).map((step): Option => {
				return { id: step.id, says: step.does, misconception: step === right ? '' : misconceptionOf(steps, at, way, step) };
			});
			return { sequence, here: steps[at], right, way, options };
		});
		return oneDrill(
			{
				drill: 'sequence',
				family: pack.family.id,
				asks: way > 0 ? 'This has just happened. What comes next?' : 'This has just happened. What came just before it?',
				given: [
					{ name: 'Demand', value: demandName(pack, sequence.demand) },
					{ name: 'Just happened', value: here.does }
				]
			},
			options,
			right.id,
			{ worked: sequenceLines(pack, sequence), quickS }
		);
	}
};

function misconceptionOf(steps: readonly Step[], at: number, way: 1 | -1, chosen: Step): string {
	const place = steps.indexOf(chosen);
	if (place < 0) return 'That belongs to another demand: it does not happen in this run.';
	const ahead = (place - at) * way;
	if (ahead < 0) return way > 0 ? 'That had happened already.' : 'That comes only afterwards.';
	return `Something was passed over: between the two there ${ahead > 2 ? 'are other steps' : 'is another step'}, without which it cannot go on.`;
}
