/** With which tool a check is taken. */
import type { Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { instrumentOf, toolOf } from '#shared/scenario/rotary.ts';
import type { Check, Instrument } from '#shared/scenario/schema.ts';
import type { Generator, Ground } from '../../drill.ts';
import { oneDrill, type Option } from '../answers.ts';
import { firstOf, shuffled } from '../../draw.ts';
import { packOf } from '../ground.ts';
import { demandName } from '../words.ts';

const id = 'tool-for-check';
const fewestWrong = 2;
const mostWrong = 3;
const quickS = 12;

export const toolForCheck: Generator = {
	id,
	drill: 'terminals',
	needs: 'family',
	offers: ({ pack }: Ground) => pack !== null && toolChecks(pack).length > 0,
	make(ground, seed) {
		const pack = packOf(ground);
		const { check, demand, own, options } = firstOf(id, seed, (stream) => {
			const checks = toolChecks(pack);
			if (checks.length === 0) return null;
			const { check, own, wrong } = stream.pick(checks);
			const asOption = ({ id, name }: Instrument, misconception: string): Option => ({ id, says: name, misconception });
			const others = othersFor(stream, own, wrong).map((other) => asOption(other, misconceptionOf(pack, own, other)));
			return { check, demand: stream.pick(check.under), own, options: shuffled(stream, [asOption(own, ''), ...others]) };
		});
		return oneDrill(
			{
				drill: 'terminals',
				family: pack.family.id,
				asks: 'With which of these is it taken?',
				given: [
					{ name: 'Check', value: check.name },
					{ name: 'Demand', value: demandName(pack, demand) }
				]
			},
			options,
			own.id,
			{
				worked: [
					`${own.name.replace(/\.$/, '')}. ${check.how}`,
					...options.filter(({ misconception }) => misconception !== '').map(({ says, misconception }) => `${says}: ${misconception}`),
					...(check.caution ? [check.caution] : [])
				],
				quickS
			}
		);
	}
};

interface ToolCheck {
	readonly check: Check;
	readonly own: Instrument;
	readonly wrong: readonly Instrument[];
}

/** Checks with a tool, and the tools that plainly read something else; settings of its own tool that no check uses are among them. */
function toolChecks(pack: Pack): ToolCheck[] {
	const used = pack.instruments
		.map((instrument) => ({ instrument, units: unitsOf(pack, instrument) }))
		.filter(({ units }) => units.size > 0);
	return pack.checks.flatMap((check): ToolCheck[] => {
		const own = instrumentOf(pack, check);
		// What stands on the appliance's own front is no choice of tool.
		if (!own?.fetched || check.way !== 'measure') return [];
		const readsElse = used.filter(({ units }) => !units.has(check.unit)).map(({ instrument }) => instrument);
		const wrong = [...new Set([...pack.instruments.filter((other) => isSetOtherwise(own, other)), ...readsElse])];
		return wrong.length >= fewestWrong ? [{ check, own, wrong }] : [];
	});
}

/** The same tool set to measure something else: volts d.c. for volts a.c. */
const isSetOtherwise = (own: Instrument, other: Instrument): boolean => toolOf(other) === toolOf(own) && other.measures !== own.measures;

/**
 * Other settings of the same tool first, so that the kind of tool does not tell; then other tools, of each no second setting while another
 * tool is left.
 */
function othersFor(stream: Chance, own: Instrument, wrong: readonly Instrument[]): Instrument[] {
	const drawn = shuffled(stream, wrong);
	const rank = (one: Instrument) =>
		toolOf(one) === toolOf(own) ? 0 : drawn.findIndex((other) => toolOf(other) === toolOf(one)) === drawn.indexOf(one) ? 1 : 2;
	return drawn.toSorted((a, b) => rank(a) - rank(b)).slice(0, mostWrong);
}

/** Units of the checks that are taken with it. */
const unitsOf = (pack: Pack, { id }: Instrument): ReadonlySet<string> =>
	new Set(pack.checks.filter(({ instrument }) => instrument === id).map(({ unit }) => unit));

function misconceptionOf(pack: Pack, own: Instrument, other: Instrument): string {
	if (toolOf(own) === toolOf(other)) return 'The right tool on the wrong setting: it would show a figure, but not of this.';
	const serves = pack.checks.find(({ instrument }) => instrument === other.id);
	return `It reads another quantity${serves ? `, as in "${serves.name}"` : ''}.`;
}
