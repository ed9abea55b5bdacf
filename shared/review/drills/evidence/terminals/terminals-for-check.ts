/** Between which two points a check is taken. */
import type { Generator } from '../../drill.ts';
import { oneDrill, type Option } from '../answers.ts';
import { firstOf, shuffled, someOf } from '../../draw.ts';
import { packOf } from '../ground.ts';
import { demandName } from '../words.ts';
import { checksWithPairs, hasPairs, pairId, pairMisconception, pairWords, wrongPairs } from './pairs.ts';

const id = 'terminals-for-check';
const fewestWrong = 2;
const mostWrong = 3;
const quickS = 15;

export const terminalsForCheck: Generator = {
	id,
	drill: 'terminals',
	needs: 'family',
	offers: hasPairs(fewestWrong),
	make(ground, seed) {
		const pack = packOf(ground);
		const { check, demand, options } = firstOf(id, seed, (stream) => {
			const checks = checksWithPairs(pack, fewestWrong);
			if (checks.length === 0) return null;
			const check = stream.pick(checks, (one) => wrongPairs(one).length);
			const right: Option = { id: pairId(check.terminals.between), says: pairWords(check, check.terminals.between), misconception: '' };
			const wrong = someOf(stream, wrongPairs(check), mostWrong).map((pair): Option => {
				return { id: pairId(pair.between), says: pairWords(check, pair.between), misconception: pairMisconception(pack, check, pair) };
			});
			return { check, demand: stream.pick(check.under), options: shuffled(stream, [right, ...wrong]) };
		});
		return oneDrill(
			{
				drill: 'terminals',
				family: pack.family.id,
				asks: 'Where do the two leads go?',
				given: [
					{ name: 'Check', value: check.name },
					{ name: 'Demand', value: demandName(pack, demand) }
				]
			},
			options,
			pairId(check.terminals.between),
			{
				worked: [
					`${check.how}`,
					`${pairWords(check, check.terminals.between)}: ${typeof check.why !== 'string' || check.why.includes('{') ? 'that is where it is read.' : check.why}`,
					...options.filter(({ misconception }) => misconception !== '').map(({ says, misconception }) => `${says}: ${misconception}`),
					...(check.caution ? [check.caution] : []),
					`What can make it mislead: ${check.misleads}`
				],
				quickS
			}
		);
	}
};
