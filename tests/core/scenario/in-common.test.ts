import { describe, expect, it } from 'vitest';
import { makePacks } from '#shared/scenario/make-pack.ts';
import { smallModel, smallTexts } from './small-family.ts';

const made = (changed: Readonly<Record<string, string>>, models = { small: smallModel }) =>
	makePacks(
		Object.entries({ ...smallTexts, ...changed }).map(([name, text]) => ({ name, text })),
		models
	);
const complaints = smallTexts['households/complaints.yaml'];
const extra = (when: string, demand = 'tap') => `${complaints.trimEnd()}
- id: extra
  says: [Something else is wrong.]
  when:
    - ${when}
  proves: { demand: ${demand}, checks: [no-such-check] }
`;
const ofHeating = extra('{ demand: heating, quantity: tapTempC, below: 20 }', 'heating');
const ofRadiators = extra('{ demand: tap, quantity: radiatorTempC, below: 20 }');
const other = {
	...smallModel,
	id: 'other',
	quantities: [...smallModel.quantities, { key: 'radiatorTempC', unit: 'degC', says: 'Radiators' }],
	parameters: [...smallModel.parameters, { key: 'gas.meterMbar', unit: 'mbar', says: 'Gas' }]
};

describe('data that families have in common', () => {
	it('leaves out of a family a complaint of a demand that it does not have', () => {
		const { packs, problems } = made({ 'households/complaints.yaml': ofHeating });
		expect(problems).toEqual([]);
		expect(packs.get('small')!.complaints.map(({ id }) => id)).not.toContain('extra');
	});

	it('leaves out a complaint of a quantity that only another family has, and refuses one that none has', () => {
		expect(made({ 'households/complaints.yaml': ofRadiators }).problems.map(({ says }) => says)).toEqual([
			expect.stringMatching(/quantity of the model, or of another in stock; came "radiatorTempC"/)
		]);
		const { packs, problems } = made({ 'households/complaints.yaml': ofRadiators }, { small: smallModel, other } as never);
		expect(problems).toEqual([]);
		expect(packs.get('small')!.complaints.map(({ id }) => id)).not.toContain('extra');
	});

	it('has the same hash whatever else is in stock', () => {
		const alone = made({}).packs.get('small')!;
		const beside = made({ 'households/complaints.yaml': ofHeating }, { small: smallModel, other } as never).packs.get('small')!;
		expect(beside.hash).toBe(alone.hash);
	});

	it('takes a common check by its id alone, whole', () => {
		const own = smallTexts['checks/small.yaml'];
		const common =
			'- id: extra-look\n  name: Extra look\n  way: look\n  place: tap\n  area: user\n  under: [none]\n  reads: displayLit\n  words: [{ word: dark, below: 0.5 }, { word: lit }]\n  minutes: 1\n  misleads: Something.\n  how: Look at it.\n  why: It is as it is.\n';
		const named = made({ 'checks/common.yaml': common, 'checks/small.yaml': `${own.trimEnd()}\n- extra-look\n` });
		expect(named.problems).toEqual([]);
		expect(named.packs.get('small')!.checks.at(-1)).toMatchObject({ id: 'extra-look', reads: 'displayLit', minutes: 1 });
		const slip = made({ 'checks/common.yaml': common, 'checks/small.yaml': `${own.trimEnd()}\n- extra-lok\n` });
		expect(slip.problems).toHaveLength(1);
		expect(slip.problems[0]).toMatchObject({ file: 'checks/small.yaml', line: own.trimEnd().split('\n').length + 1 });
	});
});
