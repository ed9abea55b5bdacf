/** What fitting the scheduler takes: our own search for the first four parameters, and the optimiser where it is installed. */
import { fitFirstStabilities } from '#shared/review/fitting/first-stabilities.ts';
import { defaultScheduler } from '#shared/review/memory/schedule.ts';
import { optimiserIn } from '../../src/lib/server/fitting/optimiser.ts';
import { drawnTrails, jittered } from '../core/review/drawn-trails.ts';
import { spreadOf, timed, type Timed } from './measure.ts';

const reviews = 5000;

export async function fits(): Promise<Timed[]> {
	const trails = drawnTrails(1, jittered(1), reviews, 5);
	const own = timed(`first four parameters fitted to ${reviews} reviews`, 5, () =>
		fitFirstStabilities(trails, defaultScheduler.parameters)
	);
	const optimiser = await optimiserIn();
	if (!optimiser) {
		console.log('The optimiser is not installed (npm run fitting): what a fit of all 21 parameters takes is not measured.');
		return [own];
	}
	const taken: number[] = [];
	for (let run = 0; run < 5; run++) {
		const from = performance.now();
		await optimiser(trails);
		taken.push(performance.now() - from);
	}
	return [own, spreadOf(`all 21 parameters fitted to ${reviews} reviews`, taken)];
}
