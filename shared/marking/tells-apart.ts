/** Which of a few faults a reading speaks for, on its own and with nothing believed before. */
import type { Reading } from '#shared/callout/state.ts';
import { tableFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { logLikelihood } from '#shared/diagnosis/likelihood.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { leansFrom, mostTimes, speaksFrom } from './gap-weights.ts';

/**
 * Likelihood of the reading under each fault: the mean over its machines, each counted by how often it is met. An instrument set by hand is
 * taken to have been put where the check means it, on the range that it was on.
 * @returns in the order of `pack.faults`; 0 for a fault without machines
 */
export function likelihoodsOf(pack: Pack, table: EvidenceTable, reading: Reading): Float64Array {
	const { check, setting } = reading;
	const evidence = setting
		? { ...reading, setting: { stands: check, ...(setting.range !== undefined && { range: setting.range }) } }
		: reading;
	const rows = logLikelihood(pack, table, evidence);
	const { from, to } = tableFacts(pack, table);
	return Float64Array.from(pack.faults, (_, fault) => {
		let sum = 0;
		let weight = 0;
		for (let row = from[fault]; rows && row < to[fault]; row++) {
			sum += table.prior[row] * Math.exp(rows[row]);
			weight += table.prior[row];
		}
		return weight > 0 ? sum / weight : 0;
	});
}

interface Weighed {
	readonly says: string;
	/** > 0 */
	readonly likelihood: number;
}

/** The fault that the reading speaks for against each of the others, in sentences; the better parted first. */
export function tellsApart(faults: readonly Weighed[]): string[] {
	const [first, ...others] = faults.toSorted((a, b) => b.likelihood - a.likelihood);
	const parted = others.toReversed().map(({ says, likelihood }) => ({ says, times: first.likelihood / likelihood }));
	if (parted.every(({ times }) => times < leansFrom)) {
		return [others.length === 1 ? 'The reading does not tell the two apart.' : 'The reading does not tell the three apart.'];
	}
	return parted.map(({ says, times }) => {
		if (times < leansFrom) return `It does not tell "${first.says}" from "${says}".`;
		const verb = times < speaksFrom ? 'leans to' : 'speaks for';
		return `It ${verb} "${first.says}" over "${says}", ${inWords(times)}.`;
	});
}

const inWords = (times: number): string => (times > mostTimes ? `more than ${mostTimes} to 1` : `about ${Math.round(times)} to 1`);
