/** What could be done next in an attempt, and what each would come to in the end. */
import { beliefAfter, standingOf } from '#shared/diagnosis/belief.ts';
import { nextActions, type Choice } from '#shared/diagnosis/next-action.ts';
import { choiceWords } from '#shared/marking/words.ts';
import { evidenceFor } from '../../lib/server/evidence/evidence.ts';
import { attemptFrom } from '../attempt.ts';
import * as option from '../options.ts';
import { table } from '../table.ts';
import type { Verb } from '../verb.ts';

interface Line {
	readonly choice: Choice;
	readonly says: string;
	readonly minutes: number;
	readonly spent: number;
	/** Expected cost to the end of the visit [currency]. */
	readonly expectedCost: number;
	/** That above the best one's [currency]. */
	readonly regret: number;
}

interface Result {
	readonly family: string;
	readonly seed: number;
	/** The cheapest in the end first; null once the visit is over. */
	readonly best: Line | null;
	readonly actions: readonly Line[];
}

const shownLines = 12;

export const best: Verb = {
	name: 'best',
	says: 'The next actions open to an attempt, the one of least expected cost first.',
	options: { file: option.file },
	async run(given, packs): Promise<Result> {
		const { callout, state } = attemptFrom(given.must(option.file), packs);
		const { pack } = callout;
		const evidence = await evidenceFor(pack);
		const belief = beliefAfter(callout, state, evidence, state.events.length);
		const valued = state.ended ? [] : nextActions(pack, evidence, belief, standingOf(callout, state));
		const actions = valued.map(({ choice, plan, expected }) => ({
			choice,
			says: choiceWords(callout, choice),
			minutes: plan.minutes,
			spent: plan.spent,
			expectedCost: expected,
			regret: expected - valued[0]!.expected
		}));
		return { family: pack.family.id, seed: callout.seed, best: actions[0] ?? null, actions };
	},
	show: ({ actions }: Result) =>
		table(
			['action', 'minutes', 'spent', 'expected cost', 'regret'],
			actions.slice(0, shownLines).map(({ says, minutes, spent, expectedCost, regret }) => [says, minutes, spent, expectedCost, regret])
		)
};
