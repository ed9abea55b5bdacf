import type { Difference } from '#shared/review/refresher/difference.ts';

/** A caution and the checks that it goes with. */
export interface Caution {
	readonly caution: string;
	readonly names: readonly string[];
	readonly isLive: boolean;
}

/** Each caution of a list once, those of live work first. A check is named once however often it differs. */
export function cautionsOf(list: readonly Difference[]): Caution[] {
	const cautioned = list.flatMap(({ caution, name, isLive = false }) => (caution === undefined ? [] : [{ caution, name, isLive }]));
	const cautions = [...new Set(cautioned.map(({ caution }) => caution))].map((caution) => {
		const own = cautioned.filter((one) => one.caution === caution);
		return { caution, names: [...new Set(own.map(({ name }) => name))], isLive: own.some(({ isLive }) => isLive) };
	});
	return cautions.toSorted((a, b) => Number(b.isLive) - Number(a.isLive));
}

/** What is done with the hands where it differs: checks that read otherwise, and those that the known ones do not have. */
export const doneByHand = (list: readonly Difference[]): Difference[] =>
	list.filter(({ kind, side }) => side !== 'known' && (kind === 'reading' || kind === 'test-point' || kind === 'check'));
