/** The scheduler's parameters, fitted to this server's log in a worker thread. Without any of it everything goes on by the defaults. */
import { once } from 'node:events';
import type { Worker } from 'node:worker_threads';
import { fewest, type Fit, type Standing } from '#shared/review/fitting/fit.ts';
import { trailsOf, usableItems, type Trail } from '#shared/review/fitting/trail.ts';
import { dayOf } from '#shared/review/memory/learner-day.ts';
import { defaultScheduler, schedulerVersion as version } from '#shared/review/memory/schedule.ts';
import { fitsIn, noParameters, type ZonedReview } from '../database/fits.ts';
import { database, type Database } from '../database/open.ts';
import type { FitDelivery, FitOrder } from './fit-worker.ts';
import { optimiserFolder } from './optimiser.ts';
import { startWorker } from '../worker.ts';

/** What came of a fit for everyone, or for one learner. */
export interface Fitted extends Fit {
	/** Null for everyone. */
	readonly learner: string | null;
}

/** The fit could not be worked out; the message is for the log. What was in force stays so. */
export class FitFailed extends Error {
	override readonly name = 'FitFailed';
}

/**
 * Fits for everyone, who are one cohort as long as there are no others, and then for each learner who has enough usable reviews; writes down
 * what came of each and which is in force.
 * @param now       [ms since 1970]
 * @param optimiser folder of the optimiser's package, whether or not it is there
 * @returns what was tried; nothing where there are too few usable reviews
 * @throws FitFailed
 */
export async function fitEveryone(db: Database = database(), now = Date.now(), optimiser = optimiserFolder): Promise<Fitted[]> {
	const fits = fitsIn(db);
	const byLearner = trailsByLearner(fits.log());
	const everyone = [...byLearner.values()].flat();
	if (usableItems(everyone) < fewest['first-stabilities']) return [];

	const inForce = (learner: string | null) => parametersOf(fits.kept(learner, version));
	const tried: Fitted[] = [];
	const worker = startWorker('fitting/fit-worker.ts');
	async function attempt(learner: string | null, trails: readonly Trail[], standing: Standing): Promise<void> {
		const made = await order(worker, { trails, standing, optimiser });
		// The server may have stopped meanwhile; and whoever deleted their account leaves no fit behind.
		if (!made || !db.$client.open || (learner !== null && fits.log(learner).length === 0)) return;
		tried.push({ learner, ...made });
		fits.add({ ...rowOf(made), learner, at: new Date(now) });
	}
	try {
		const published = defaultScheduler.parameters;
		await attempt(null, everyone, { fallback: published, inForce: inForce(null) ?? published });
		// One learner alone is everyone.
		const many = byLearner.size > 1 ? byLearner : [];
		for (const [learner, trails] of many) {
			if (!db.$client.open) break;
			const fallback = inForce(null) ?? published;
			await attempt(learner, trails, { fallback, inForce: inForce(learner) ?? fallback });
		}
	} finally {
		await worker.terminate();
	}
	return tried;
}

/** Trails of every learner, by their own days. */
export function trailsByLearner(log: readonly ZonedReview[]): Map<string, Trail[]> {
	const rows = new Map<string, ZonedReview[]>();
	for (const row of log) {
		const own = rows.get(row.learner);
		if (own) own.push(row);
		else rows.set(row.learner, [row]);
	}
	return new Map(
		[...rows].map(([learner, own]) => {
			const reviews = own.map(({ skill, at, recall, minutes }) => ({ skill, at: at.getTime(), recall, minutes }));
			return [learner, trailsOf(learner, reviews, (at) => dayOf(at, own[0]!.zone))];
		})
	);
}

const parametersOf = (row: { parameters: string } | undefined): number[] | undefined => row && (JSON.parse(row.parameters) as number[]);

/** A return to the fallback has no parameters of its own: today's would stay with the learner when the fallback is fitted better. */
function rowOf(fit: Fit) {
	const { items, before, chosen } = fit;
	const [parameters, after] = chosen === 'fallback' ? [noParameters, fit.fallback] : [JSON.stringify(fit.parameters), fit.after];
	return { items, version, parameters, before, after, kept: chosen !== 'in-force' };
}

async function order(worker: Worker, wanted: FitOrder): Promise<Fit | null> {
	const over = new AbortController();
	try {
		worker.postMessage(wanted);
		const ended = once(worker, 'exit', over).then(([code]): FitDelivery => ({ failed: `the fit worker ended with code ${code}` }));
		const delivered = once(worker, 'message', over).then(([delivery]) => delivery as FitDelivery);
		const delivery = await Promise.race([delivered, ended]);
		if ('failed' in delivery) throw new FitFailed(delivery.failed);
		return delivery.fit;
	} catch (error) {
		throw error instanceof FitFailed ? error : new FitFailed(String(error), { cause: error });
	} finally {
		over.abort();
	}
}
