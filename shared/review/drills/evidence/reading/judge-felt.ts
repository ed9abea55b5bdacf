/** What was seen, heard or felt, taken on a suspicion: as sound ones are, as that fault makes it, as something else makes it, or no judge. */
import type { ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Option } from '../answers.ts';
import { faultWords, soundWords } from '../likely.ts';
import { faultName } from '../words.ts';
import { judgingGenerator } from './judging.ts';
import type { Hoped, Suspected } from './suspect.ts';
import { weighSound } from './weigh.ts';

type Verdict = 'sound' | 'as-suspected' | 'other' | 'cannot-tell';
const hopes: readonly Hoped[] = ['sound', 'apart', 'elsewhere', 'cannot-tell'];

/** A word heard from at least so many machines with the fault is what that fault gives; from at most so many, it is not. */
const gives = 0.4;
const hardlyGives = 0.1;

const isSense = ({ gauge }: ColumnFacts): boolean => gauge.bands !== null;

/** Null where it is neither clearly one nor the other. */
function verdictOf(one: Suspected): Verdict | null {
	const { stands, likelihoods, suspect } = one;
	if (stands === 'unclear') return null;
	if (stands === 'within') return weighSound(one);
	if (likelihoods[suspect] >= gives) return 'as-suspected';
	return likelihoods[suspect] <= hardlyGives && likelihoods.some((likelihood) => likelihood >= gives) ? 'other' : null;
}

const verdictWords = (suspect: string): Record<Verdict, string> => ({
	sound: `Sound ones are like this, and with ${suspect} it would be otherwise: it speaks against that fault.`,
	'as-suspected': `Sound ones are not like this, and with ${suspect} it is: it bears the suspicion out, though other faults may give it too.`,
	other: `Sound ones are not like this, yet ${suspect} does not make it so either: something else is wrong.`,
	'cannot-tell': `With ${suspect} and without it, it is alike under this demand: it neither clears nor condemns.`
});

function optionsOf(pack: Pack, table: EvidenceTable, { facts, suspect }: Suspected, right: Verdict): Option[] {
	const fault = faultName(pack.faults[suspect]);
	const sound = soundWords(pack, facts);
	const faulty = faultWords(pack, table, facts, suspect);
	const seen = `The suspected fault was seen in what sound ones show as well: ${sound}.`;
	const isApart = right === 'as-suspected' || right === 'other';
	const wrongly: Record<Verdict, string> = {
		sound: isApart
			? `Taken for normal. Sound ones are otherwise here: ${sound}.`
			: `What looks sound was taken to clear the suspect. With ${fault} it is like this too.`,
		'as-suspected': right === 'other' ? `Whatever is wrong was laid to the suspect. With ${fault} it would be: ${faulty}.` : seen,
		other: right === 'as-suspected' ? `The suspicion was dropped too soon. With ${fault} it is just so: ${faulty}.` : seen,
		'cannot-tell': isApart
			? 'A plain sign was excused. Sound ones do not show it.'
			: `A check that does tell was not trusted. With ${fault} it would be otherwise: ${faulty}.`
	};
	const says: Record<Verdict, string> = {
		sound: 'As sound ones are, and it speaks against that fault',
		'as-suspected': 'Not sound, and what that fault gives',
		other: 'Not sound, but not what that fault gives',
		'cannot-tell': 'Cannot tell from this: with that fault and without it this is alike'
	};
	return (['sound', 'as-suspected', 'other', 'cannot-tell'] as const).map((id) => ({ id, says: says[id], misconception: wrongly[id] }));
}

export const judgeFelt = judgingGenerator<Verdict>({
	id: 'judge-felt-or-heard-reading',
	hopes,
	kind: isSense,
	asks: (suspect) => `You suspect ${suspect} and look, listen or feel. What do you make of it?`,
	verdictOf,
	words: verdictWords,
	optionsOf
});
