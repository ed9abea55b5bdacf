/** What is to be shown of the fitting: how far the log has come, what was tried, how well it foretold, and what is in use. */
import { extentFor, fewest, type Extent } from '#shared/review/fitting/fit.ts';
import { usableItems } from '#shared/review/fitting/trail.ts';
import { defaultScheduler, schedulerVersion as version } from '#shared/review/memory/schedule.ts';
import { fitsIn, isReturn } from '../database/fits.ts';
import { database, type Database } from '../database/open.ts';
import type { FitRow } from '../database/schema.ts';
import { trailsByLearner } from './fitting.ts';
import { isInstalled, optimiserFolder } from './optimiser.ts';

/** One attempt at fitting. */
export interface FitLine {
	readonly at: Date;
	/** Usable reviews that it was made from and tried on. */
	readonly items: number;
	/** Parameters that differ from the defaults, of 21. */
	readonly fitted: number;
	/** Log loss on the latest fifth, which the fit had not seen: of what was in use, and of what was tried. Less is better. */
	readonly before: number;
	readonly after: number;
	/** Whether the fit came into use, or neither it nor what had been fitted before did, or all stayed as it was. */
	readonly came: 'used' | 'given-up' | 'not-used';
}

export interface FitStanding {
	/** Usable reviews: on a later day than the one before of the same skill. */
	readonly items: number;
	/** What so many can bear. */
	readonly extent: Extent;
	readonly latest: FitLine | null;
}

export interface FitShown {
	/** Whether the optimiser, which fits all 21 parameters, is installed on this server. */
	readonly optimiser: boolean;
	/** By what this learner is scheduled. */
	readonly uses: 'defaults' | 'everyone' | 'own';
	readonly everyone: FitStanding;
	readonly own: FitStanding;
	/** The same in sentences. */
	readonly says: readonly string[];
}

/** @param optimiser folder of the optimiser's package, whether or not it is there */
export function fitShown(learnerId: string, db: Database = database(), optimiser = optimiserFolder): FitShown {
	const fits = fitsIn(db);
	const count = (learner?: string) => usableItems([...trailsByLearner(fits.log(learner)).values()].flat());
	const standing = (latest: FitRow | undefined, items: number): FitStanding => ({
		items,
		extent: extentFor(items),
		latest: latest ? lineOf(latest) : null
	});
	const latest = fits.latest(null, version);
	// Everyone's log is long once it has been fitted, and was counted then.
	const everyone = standing(latest, latest?.items ?? count());
	const own = standing(fits.latest(learnerId, version), count(learnerId));
	const uses = fits.kept(learnerId, version) ? 'own' : fits.kept(null, version) ? 'everyone' : 'defaults';
	const installed = isInstalled(optimiser);
	return { optimiser: installed, uses, everyone, own, says: inWords(uses, everyone, own, installed) };
}

function lineOf(row: FitRow): FitLine {
	const { at, items, before, after } = row;
	const fitted = (JSON.parse(row.parameters) as number[]).filter((value, i) => value !== defaultScheduler.parameters[i]).length;
	return { at, items, fitted, before, after, came: isReturn(row) ? 'given-up' : row.kept ? 'used' : 'not-used' };
}

const outcomes: Record<FitLine['came'], string> = {
	used: 'It is used',
	'given-up': 'What had been fitted is given up: what it fell back on foretold the latest fifth better',
	'not-used': 'It is not used: it foretold the latest fifth no better than what is in use, or than an average'
};

const inUse: Record<FitShown['uses'], string> = {
	defaults: 'Practice comes back by the memory model as it was published, fitted to nobody here.',
	everyone: 'Practice comes back by the memory model as it was fitted to everyone on this server.',
	own: 'Practice comes back by the memory model as it was fitted to you.'
};

function inWords(uses: FitShown['uses'], everyone: FitStanding, own: FitStanding, optimiser: boolean): string[] {
	return [
		inUse[uses],
		standingInWords('Everyone together', everyone),
		standingInWords('You alone', own),
		...(optimiser
			? []
			: [
					`The optimiser is not installed on this server, so that no more than the first four of 21 parameters are fitted, however many reviews there are. "npm run fitting" installs it.`
				])
	];
}

function standingInWords(who: string, { items, extent, latest }: FitStanding): string {
	const have = `${who}: ${items} usable ${items === 1 ? 'review' : 'reviews'}`;
	if (extent === 'defaults') return `${have}. Under ${fewest['first-stabilities']} the published parameters hold.`;
	if (!latest) return `${have}. No fit has been tried yet.`;
	const losses = `log loss ${latest.before.toFixed(4)} before, ${latest.after.toFixed(4)} after`;
	return `${have}. Last fit: ${losses}, on the latest fifth, which it had not seen. ${outcomes[latest.came]}.`;
}
