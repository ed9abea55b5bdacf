/** `--set KEY=VALUE`: a household or family parameter by its key, or one of a few plain names. */
import type { commonNames } from '#shared/appliance/model.ts';
import type { Overrides } from '#shared/callout/sample-machine.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { household } from '#shared/scenario/schema.ts';
import { BadInput } from './bad-input.ts';
import { numberWithin } from './options.ts';

const gasNames = household.shape.gas.unwrap().options;

/** Plain names, with bounds of what a house can have. */
const plain: Readonly<Record<string, { readonly key: keyof typeof commonNames.parameters; readonly from: number; readonly to: number }>> = {
	mainTempC: { key: 'water.mainTempC', from: 1, to: 35 },
	mainPressureBar: { key: 'water.mainPressureBar', from: 0.2, to: 10 },
	tapOpening: { key: 'tap.opening', from: 0.05, to: 4 },
	roomTempC: { key: 'room.tempC', from: -10, to: 45 }
};

/** @throws BadInput naming the key */
export function overridesFrom(pack: Pack, assignments: readonly { readonly key: string; readonly value: string }[]): Overrides {
	let gas: Overrides['gas'];
	const parameters: Record<string, number> = {};
	for (const { key, value } of assignments) {
		if (key === 'gas') {
			gas = gasNames.find((name) => name === value);
			if (!gas) throw new BadInput('--set gas', `one of ${gasNames.join(', ')}`, value);
			continue;
		}
		const { key: parameter, from, to } = plain[key] ?? { key, ...bounds(pack, key) };
		if (!(parameter in pack.family.parameters)) {
			const known = [...Object.keys(plain), 'gas', ...Object.keys(pack.family.parameters)];
			throw new BadInput('--set', `a key among ${known.join(', ')}`, key);
		}
		const number = numberWithin(value, from, to);
		if (number === undefined) throw new BadInput(`--set ${key}`, `a number from ${from} to ${to}`, value);
		parameters[parameter] = number;
	}
	return { ...(gas ? { gas } : {}), parameters };
}

/** Room for any trial that still makes a machine: no size is below nought, save temperatures and marks that the family itself puts there. */
function bounds(pack: Pack, key: string): { readonly from: number; readonly to: number } {
	if (pack.model.parameters.some((parameter) => parameter.key === key && parameter.unit === 'degC')) return { from: -30, to: 200 };
	return { from: Math.min(0, pack.family.parameters[key]?.nominal ?? 0), to: 1e6 };
}
