/** A figure on an instrument, taken on a suspicion: sound, low, high, or no judge of that suspicion. */
import type { ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Option } from '../answers.ts';
import { soundWords } from '../likely.ts';
import { faultName } from '../words.ts';
import { judgingGenerator } from './judging.ts';
import type { Hoped, Suspected } from './suspect.ts';
import { weighSound } from './weigh.ts';

type Verdict = 'sound' | 'low' | 'high' | 'cannot-tell';
const hopes: readonly Hoped[] = ['sound', 'apart', 'apart', 'cannot-tell'];

const isFigure = ({ gauge }: ColumnFacts): boolean => gauge.bands === null;

/** Null where it is neither clearly one nor the other. */
function verdictOf(one: Suspected): Verdict | null {
	const { stands } = one;
	if (stands === 'low' || stands === 'high') return stands;
	return stands === 'within' ? weighSound(one) : null;
}

const verdictWords = (suspect: string): Record<Verdict, string> => ({
	sound: `It reads as a sound appliance does, and with ${suspect} it would read otherwise: the reading speaks against that fault.`,
	low: 'It is below anything that a sound appliance reads here.',
	high: 'It is above anything that a sound appliance reads here.',
	'cannot-tell': `With ${suspect} and without it this check reads alike under this demand: it neither clears nor condemns.`
});

function optionsOf(pack: Pack, _: EvidenceTable, { facts, suspect }: Suspected, right: Verdict): Option[] {
	const fault = faultName(pack.faults[suspect]);
	const sound = soundWords(pack, facts);
	const elsewhere = `A figure brought along from another demand or another appliance. Sound ones of this family read ${sound} here.`;
	const wrongly: Record<Verdict, string> = {
		sound:
			right === 'cannot-tell'
				? `A reading that looks sound was taken to clear the suspect. With ${fault} it reads like this too.`
				: `What was hoped for was read into it. Sound ones read ${sound} here.`,
		low: right === 'high' ? 'The wrong way round: it lies above what sound ones read.' : elsewhere,
		high: right === 'low' ? 'The wrong way round: it lies below what sound ones read.' : elsewhere,
		'cannot-tell':
			right === 'sound'
				? `A check that does tell was not trusted. With ${fault} it would have read otherwise.`
				: `A reading that no sound appliance gives was excused. Whatever its cause, it is not sound.`
	};
	const says: Record<Verdict, string> = {
		sound: 'Sound, and it speaks against that fault',
		low: 'Low: below what sound appliances read here',
		high: 'High: above what sound appliances read here',
		'cannot-tell': 'Cannot tell from this: with that fault and without it this reads alike'
	};
	return (['sound', 'low', 'high', 'cannot-tell'] as const).map((id) => ({ id, says: says[id], misconception: wrongly[id] }));
}

export const judgeMeasured = judgingGenerator<Verdict>({
	id: 'judge-measured-reading',
	hopes,
	kind: isFigure,
	asks: (suspect) => `You suspect ${suspect} and take one reading. What do you make of it?`,
	verdictOf,
	words: verdictWords,
	optionsOf
});
