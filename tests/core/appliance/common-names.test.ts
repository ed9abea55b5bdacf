import { describe, expect, test } from 'vitest';
import { models } from '#shared/appliance/families/index.ts';
import { commonNames, seenBy, type ApplianceModel } from '#shared/appliance/model.ts';

const kinds = ['parameters', 'quantities', 'signals'] as const;

/** Units of what a family defines, by name. */
const unitsOf = (model: ApplianceModel, kind: (typeof kinds)[number]) => new Map(model[kind].map(({ key, unit }) => [key, unit]));

describe.each(Object.values(models))('$id', (model) => {
	test.each(kinds)('gives common %s in the common unit', (kind) => {
		const units = unitsOf(model, kind);
		for (const [name, unit] of Object.entries(commonNames[kind])) expect(units.get(name) ?? unit, name).toBe(unit);
	});

	test('names nothing twice', () => {
		for (const kind of kinds) expect(unitsOf(model, kind).size, kind).toBe(model[kind].length);
	});
});

test('what two families call alike has one unit', () => {
	for (const kind of kinds) {
		const units = new Map<string, string>();
		for (const model of Object.values(models)) {
			for (const [name, unit] of unitsOf(model, kind)) {
				expect(units.get(name) ?? unit, name).toBe(unit);
				units.set(name, unit);
			}
		}
	}
});

test('every common name is one that a family has', () => {
	for (const kind of kinds) {
		const known = new Set(Object.values(models).flatMap((model) => [...unitsOf(model, kind).keys()]));
		for (const name of Object.keys(commonNames[kind])) expect(known, name).toContain(name);
	}
});

test('every quantity that is seen by another, and that other, is one that a family has', () => {
	const known = new Set(Object.values(models).flatMap((model) => [...unitsOf(model, 'quantities').keys()]));
	for (const [name, others] of Object.entries(seenBy)) for (const one of [name, ...others]) expect(known, one).toContain(one);
});
