/** To which range the tool is set for a figure that is expected. */
import type { Demand } from '#shared/appliance/model.ts';
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { RotaryRange } from '#shared/scenario/rotary.ts';
import { trueValue } from '#shared/diagnosis/columns.ts';
import type { Generator } from '../../drill.ts';
import { oneDrill, type Option } from '../answers.ts';
import { firstOf, shuffled, someOf } from '../../draw.ts';
import { packOf } from '../ground.ts';
import { setUp } from '../taken.ts';
import { demandName } from '../words.ts';
import { expectation, fitOf, hasRanges, rangedChecks, type Fit, type Ranged } from './ranges.ts';

const id = 'range-for-check';
const offered = 4;
const quickS = 15;

interface Draw extends Ranged {
	readonly demand: Demand;
	readonly expected: number;
	readonly right: RotaryRange;
	readonly wrong: readonly { readonly range: RotaryRange; readonly fit: Fit }[];
}

export const rangeForCheck: Generator = {
	id,
	drill: 'terminals',
	needs: 'family',
	offers: hasRanges,
	make(ground, seed) {
		const pack = packOf(ground);
		const { check, demand, expected, right, wrong, options } = firstOf(id, seed, (stream) => {
			const drawn = drawRange(pack, stream);
			if (!drawn) return null;
			const asOption = (range: RotaryRange, misconception: string): Option => ({ id: range.id, says: range.name, misconception });
			const wrong = drawn.wrong.map(({ range, fit }) => asOption(range, misconceptionOf(drawn, range, fit)));
			return { ...drawn, options: shuffled(stream, [asOption(drawn.right, ''), ...wrong]) };
		});
		const shows = `about ${expected} ${check.unit}`.trim();
		return oneDrill(
			{
				drill: 'terminals',
				family: pack.family.id,
				asks: 'Which of these ranges do you set?',
				given: [
					{ name: 'Check', value: check.name },
					{ name: 'Demand', value: demandName(pack, demand) },
					{ name: 'You expect', value: shows }
				]
			},
			options,
			right.id,
			{
				worked: [
					`${right.name}: ${shows} fits under its end, ${right.over} ${right.unit}, and its steps of ${right.resolution} ${right.unit} are fine enough.`,
					...wrong.map(({ range }) => `${range.name}: ${options.find(({ id }) => id === range.id)?.misconception ?? ''}`),
					...(check.caution ? [check.caution] : [])
				],
				quickS
			}
		);
	}
};

function drawRange(pack: Pack, stream: Chance): Draw | null {
	const checks = rangedChecks(pack);
	if (checks.length === 0) return null;
	const one = stream.pick(checks);
	const { check, own, ranges } = one;
	const demand = stream.pick(check.under);
	// Sound, or with a fault now and then: what is expected is not always what a sound one reads.
	const bench = setUp(pack, stream, stream.uniform() < 0.7 ? 'none' : stream.pick(pack.faults).id);
	const value = trueValue(check, bench.run(demand), bench.machine.household.facts);
	// The whole of what stands on it must fit the range, whatever change of it is read.
	const standing = check.carries === undefined ? value : Math.max(value, bench.run(demand)[check.carries] ?? value);
	if (!Number.isFinite(standing) || standing <= own.resolution || standing !== value) return null;
	const expected = expectation(value);
	const fits = ranges.map((range) => ({ range, fit: fitOf(range, own, expected) }));
	// Of ranges that all serve only one is offered.
	const serve = fits.filter(({ fit }) => fit === 'fits');
	const wrong = someOf(
		stream,
		fits.filter(({ fit }) => fit !== 'fits' && fit !== 'near'),
		offered - 1
	);
	if (serve.length === 0 || wrong.length < 2 || !wrong.some(({ fit }) => fit !== 'measures-else')) return null;
	return { ...one, demand, expected, right: stream.pick(serve).range, wrong };
}

function misconceptionOf(
	{ check, expected }: Pick<Draw, 'check' | 'expected'>,
	{ measures, over, resolution, unit }: RotaryRange,
	fit: Fit
): string {
	switch (fit) {
		case 'too-low':
			return `A low range for a fine reading: it ends at ${over} ${unit} and only says that it is over range.`;
		case 'too-coarse':
			return `The widest range to be safe: in steps of ${resolution} ${unit}, ${expected} ${check.unit} is hardly told from what a fault gives.`;
		default:
			return measures === 'ohms' && check.live
				? 'An ohms range across a live circuit: it blows the fuse of the meter, or worse.'
				: `It measures ${measures}, which is not what is asked for here.`;
	}
}
