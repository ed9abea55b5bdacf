/** What is isolated or open now, in few words; nothing where all is as found. */
import type { CalloutView } from '#shared/callout/view.ts';

export interface Mark {
	/** As it stands in the strip. */
	readonly short: string;
	/** As it is read out. */
	readonly says: string;
}

export function isolated({ site }: Pick<CalloutView, 'site'>): Mark[] {
	const dead = site.includes('proved-dead') ? ', proved dead' : '';
	const marks: Mark[] = [];
	if (site.includes('electricity-off')) marks.push({ short: `Elec off${dead}`, says: `Electricity off${dead}` });
	if (site.includes('gas-off')) marks.push({ short: 'Gas off', says: 'Gas off' });
	if (site.includes('water-off')) marks.push({ short: 'Water off', says: 'Water off' });
	if (site.includes('casing-off')) marks.push({ short: 'Casing off', says: 'Casing off' });
	return marks;
}
