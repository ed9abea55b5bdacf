/** Fits the scheduler to this server's log. */
import { fewest } from '#shared/review/fitting/fit.ts';
import { closeDatabase, database } from '../../lib/server/database/open.ts';
import { fitEveryone, type Fitted } from '../../lib/server/fitting/fitting.ts';
import { isInstalled } from '../../lib/server/fitting/optimiser.ts';
import { table } from '../table.ts';
import type { Verb } from '../verb.ts';

interface Result {
	/** Whether the optimiser is installed. */
	readonly optimiser: boolean;
	readonly tried: readonly Omit<Fitted, 'parameters'>[];
}

export const fit: Verb = {
	name: 'fit',
	says: 'Fits the scheduler to the log of PROVEWELL_DATA and keeps what foretells later reviews better than what is in force.',
	options: {},
	async run(): Promise<Result> {
		try {
			const tried = await fitEveryone(database());
			return { optimiser: isInstalled(), tried: tried.map(({ parameters: _, ...rest }) => rest) };
		} finally {
			closeDatabase();
		}
	},
	show: ({ optimiser, tried }: Result) =>
		[
			optimiser
				? 'The optimiser is installed.'
				: 'The optimiser is not installed (npm run fitting): no more than the first four of 21 parameters are fitted.',
			tried.length === 0
				? `There are fewer than ${fewest['first-stabilities']} usable reviews; the published parameters hold.`
				: table(
						['for', 'reviews', 'held out', 'fitted', 'before', 'after', 'average', 'in force now'],
						tried.map(({ learner, items, held, extent, before, after, average, chosen }) => [
							learner ?? 'everyone',
							items,
							held,
							extent,
							before,
							after,
							average,
							chosen === 'fit' ? 'the fit' : chosen === 'fallback' ? 'what it falls back on' : 'as before'
						])
					),
			...tried.flatMap(({ lacks }) => (lacks && optimiser ? [lacks] : []))
		].join('\n')
};
