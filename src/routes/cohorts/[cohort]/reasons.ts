import type { CohortEntry } from '#shared/review/progress/cohort-map.ts';

const percent = (share: number) => `${Math.round(share * 100)} %`;

/** Why an area is taken up, in figures. @param joined  people of the cohort whose practice is counted */
export function reasonsFor({ held, meanRecall, weak, untried }: CohortEntry, joined: number): string {
	if (held.of === 0) return joined === 0 ? 'Nobody has joined yet.' : 'Nobody has tried it yet.';
	const lost = weak.filter(({ isLost }) => isLost).length;
	const sentences = [
		`${held.count} of the ${held.of} who ${held.of === 1 ? 'has' : 'have'} tried it hold it${meanRecall === null ? '' : `, with a mean recall of ${percent(meanRecall)}`}.`,
		lost > 0 ? `${lost} lost it when it was last shown.` : null,
		untried.length > 0 ? `${untried.length} ${untried.length === 1 ? 'has' : 'have'} not tried it.` : null
	];
	return sentences.filter((one) => one !== null).join(' ');
}
