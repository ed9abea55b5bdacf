/**
 * Drills answered by choosing: one, any of several, or all in order.
 *
 * What is nearly right is a rule of our own: one slip in several where something right was ticked, or one exchange of neighbours in an
 * order. A slip that would put somebody in danger is wrong. That none of several is right is a choice of its own: nothing chosen is no
 * answer. How that and the time taken show recall, see `pace.ts`.
 */
import type { Answer, Choice, Drill, Judged, Question } from '../drill.ts';
import { recallOf, type Outcome } from '../pace.ts';

/** One of the choices, with what it says of whoever gets it wrong. */
export interface Option extends Choice {
	/** What leads somebody to choose it, or to leave it out, wrongly. */
	readonly misconception: string;
}

/** One of several, any number of which are right. */
export interface Tick extends Option {
	readonly right: boolean;
	/** Getting this one wrong would put somebody in danger. */
	readonly grave?: boolean;
}

/** What is asked, without the choices. */
export type Asked = Omit<Question, 'asking'>;

/** What is told afterwards, and how quick is quick. */
export interface Told {
	readonly worked: readonly string[];
	/** Up to this a right answer is fluent [s]. */
	readonly quickS: number;
}

type Refused = { readonly refused: string };

/** A right answer that takes so many times what is quick is laboured. */
const slowTimes = 6;

/** The choice of saying that none of several is right. */
export const noneOfThem: Choice = { id: 'none-of-them', says: 'None of them' };

/** @param right id of the right one */
export function oneDrill(asked: Asked, options: readonly Option[], right: string, told: Told): Drill {
	const answer = options.flatMap(({ id, says }) => (id === right ? [says] : []));
	return {
		question: { ...asked, asking: { kind: 'one', choices: options.map(asChoice) } },
		judge(given, seconds) {
			const chosen = chosenFrom(options, given);
			if ('refused' in chosen) return chosen;
			if (chosen.length !== 1) return { refused: 'Choose one of them.' };
			const wrong = options.find(({ id }) => id === chosen[0] && id !== right);
			return judged(wrong ? 'wrong' : 'right', seconds, answer, told, wrong?.misconception ?? null);
		}
	};
}

export function severalDrill(asked: Asked, ticks: readonly Tick[], told: Told): Drill {
	const right = ticks.filter((tick) => tick.right).map(({ says }) => says);
	const answer = right.length === 0 ? [noneOfThem.says] : right;
	const choices = [...ticks.map(asChoice), noneOfThem];
	return {
		question: { ...asked, asking: { kind: 'several', choices } },
		judge(given, seconds) {
			const chosen = chosenFrom(choices, given);
			if ('refused' in chosen) return chosen;
			if (chosen.length === 0) return { refused: `Tick each that is right, or "${noneOfThem.says}".` };
			if (chosen.includes(noneOfThem.id) && chosen.length > 1) return { refused: `"${noneOfThem.says}" goes with no other.` };
			const slips = ticks.filter(({ id, right }) => right !== chosen.includes(id));
			const worst = slips.find(({ grave }) => grave) ?? slips[0];
			const hasRight = ticks.some(({ id, right }) => right && chosen.includes(id));
			const how = !worst ? 'right' : slips.length === 1 && hasRight && !worst.grave ? 'nearly' : 'wrong';
			return judged(how, seconds, answer, told, worst?.misconception ?? null);
		}
	};
}

/**
 * @param ordered in the right order
 * @param shown   the same, in the order in which they are offered
 */
export function orderDrill(asked: Asked, ordered: readonly Choice[], shown: readonly Choice[], told: Told): Drill {
	const answer = ordered.map(({ says }, index) => `${index + 1}. ${says}`);
	return {
		question: { ...asked, asking: { kind: 'order', choices: shown.map(asChoice) } },
		judge(given, seconds) {
			const chosen = chosenFrom(shown, given);
			if ('refused' in chosen) return chosen;
			if (chosen.length !== ordered.length) return { refused: 'Put all of them in order.' };
			const at = chosen.map((id) => ordered.findIndex((step) => step.id === id));
			const how = isRising(at) ? 'right' : isOneExchange(at) ? 'nearly' : 'wrong';
			return judged(how, seconds, answer, told, how === 'right' ? null : orderMisconception(at, ordered));
		}
	};
}

const isRising = (at: readonly number[]) => at.every((place, index) => place === index);

/** Whether exchanging two neighbours once would put all right. */
function isOneExchange(at: readonly number[]): boolean {
	const off = at.flatMap((place, index) => (place === index ? [] : [index]));
	return off.length === 2 && off[1] === off[0] + 1;
}

function orderMisconception(at: readonly number[], ordered: readonly Choice[]): string {
	if (at.every((place, index) => place === at.length - 1 - index)) return 'The whole order is backwards: the last was put first.';
	const first = at.findIndex((place, index) => place !== index);
	const [early, due] = [ordered[at[first]].says, ordered[first].says];
	return `One step was put before what has to happen first: "${early}" came before "${due}"`;
}

function chosenFrom(choices: readonly Choice[], given: Answer): readonly string[] | Refused {
	if (!('chosen' in given)) return { refused: 'Choose from the list.' };
	const { chosen } = given;
	if (new Set(chosen).size !== chosen.length) return { refused: 'Each can be chosen once.' };
	if (chosen.some((id) => !choices.some((choice) => choice.id === id))) return { refused: 'That is not in the list.' };
	return chosen;
}

function judged(
	outcome: Outcome,
	seconds: number,
	answer: readonly string[],
	{ worked, quickS }: Told,
	misconception: string | null
): Judged {
	const recall = recallOf(outcome, seconds, { quickSeconds: quickS, slowSeconds: slowTimes * quickS });
	return { right: outcome === 'right', recall, answer, worked, misconception };
}

// Only what may be seen: an option carries what is wrong with it.
const asChoice = ({ id, says }: Choice): Choice => ({ id, says });
