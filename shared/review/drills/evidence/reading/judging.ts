/** What the drills have in common that judge one reading taken on a suspicion. */
import type { ColumnFacts } from '#shared/diagnosis/column-facts.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { firstOf } from '../../draw.ts';
import type { Generator } from '../../drill.ts';
import { oneDrill, type Option } from '../answers.ts';
import { evidenceOf } from '../ground.ts';
import { faultName, readingGiven } from '../words.ts';
import { drawSuspected, type Hoped, type Suspected } from './suspect.ts';
import { quickReadingS, workedReading } from './tell.ts';

export interface Judging<Verdict extends string> {
	readonly id: string;
	/** One of them is drawn: what is hoped to come up. */
	readonly hopes: readonly Hoped[];
	/** Whether a column may be asked about. */
	readonly kind: (facts: ColumnFacts) => boolean;
	/** The question, of the suspect by name. */
	readonly asks: (suspect: string) => string;
	/** Null where it is neither clearly one nor the other: another is drawn. */
	readonly verdictOf: (one: Suspected) => Verdict | null;
	/** The right verdict in words, of the suspect by name. */
	readonly words: (suspect: string) => Readonly<Record<Verdict, string>>;
	readonly optionsOf: (pack: Pack, table: EvidenceTable, one: Suspected, right: Verdict) => Option[];
}

export function judgingGenerator<Verdict extends string>(of: Judging<Verdict>): Generator {
	return {
		id: of.id,
		drill: 'reading',
		needs: 'evidence',
		make(ground, seed) {
			const { pack, table } = evidenceOf(ground);
			const { one, right } = firstOf(of.id, seed, (stream) => {
				const one = drawSuspected(pack, table, stream, stream.pick(of.hopes), of.kind);
				const right = one && of.verdictOf(one);
				return one && right ? { one, right } : null;
			});
			const suspect = faultName(pack.faults[one.suspect]);
			const { check, column } = one.facts;
			return oneDrill(
				{
					drill: 'reading',
					family: pack.family.id,
					asks: of.asks(suspect),
					given: [{ name: 'House', value: one.household }, ...readingGiven(pack, check, column.demand, one.reading)]
				},
				of.optionsOf(pack, table, one, right),
				right,
				{ worked: workedReading(pack, table, one, of.words(suspect)[right]), quickS: quickReadingS }
			);
		}
	};
}
