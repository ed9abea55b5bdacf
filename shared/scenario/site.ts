/** The site as states: how it is found, what undoes what, and which states keep people safe while work is done. */
import type { SiteState } from './schema.ts';

/** As every engineer finds it. */
export const openingSite: readonly SiteState[] = ['casing-on', 'electricity-on', 'gas-on', 'water-on'];

/** What stops being so when a state is brought about. */
export const undone: Readonly<Record<SiteState, readonly SiteState[]>> = {
	'casing-off': ['casing-on'],
	'casing-on': ['casing-off'],
	'electricity-on': ['electricity-off', 'proved-dead'],
	'electricity-off': ['electricity-on'],
	'proved-dead': [],
	'gas-on': ['gas-off'],
	'gas-off': ['gas-on'],
	'water-on': ['water-off'],
	'water-off': ['water-on']
};

/** States needed for safety: acting without them is a breach. The others only stand in the way, and the learner is told so. */
export const safeStates: readonly SiteState[] = ['electricity-off', 'proved-dead', 'gas-off', 'water-off'];

/** What a running appliance needs. */
export const supplies: readonly SiteState[] = ['electricity-on', 'gas-on', 'water-on'];

/** A state as a condition in words: "the casing must be off". */
export const siteWords: Readonly<Record<SiteState, string>> = {
	'casing-off': 'the casing must be off',
	'casing-on': 'the casing must be back on',
	'electricity-on': 'the electricity must be on',
	'electricity-off': 'the electricity must be isolated',
	'proved-dead': 'the circuit must be proved dead',
	'gas-on': 'the gas must be on',
	'gas-off': 'the gas must be isolated',
	'water-on': 'the water must be on',
	'water-off': 'the water must be isolated'
};
