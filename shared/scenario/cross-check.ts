/** Holds the files of one family against its model and against each other: every name must lead somewhere. */
import type { ApplianceModel } from '#shared/appliance/model.ts';
import { checkCallouts } from './cross-check-callouts.ts';
import { checkFaults } from './cross-check-faults.ts';
import { checkObservations } from './cross-check-observations.ts';
import { idsOf, mustBeUnique, type Crossing } from './crossing.ts';
import type { Vocabulary } from './in-common.ts';
import type { Problem, Remedy } from './pack.ts';
import type { Sources } from './read.ts';
import { keyOf } from './sheet.ts';

/** @returns every problem, in the order of the files */
export function crossCheck(sources: Sources, model: ApplianceModel, remedies: readonly Remedy[], known: Vocabulary): readonly Problem[] {
	const problems: Problem[] = [];
	const report: Crossing['report'] = (sheet, path, says) => {
		problems.push({ file: sheet.file, line: sheet.lineOf(path), key: keyOf(path), says });
	};
	const crossing: Crossing = {
		sources,
		model,
		remedies,
		known,
		quantities: new Set(model.quantities.map((quantity) => quantity.key)),
		places: idsOf(sources.drawing.value.places),
		checkIds: idsOf(sources.checks.value),
		report,
		mustBe: (sheet, path, what, known, name) => {
			if (!known.has(name)) report(sheet, path, `expected ${what}; came "${name}"${nearest(known, name)}`);
		}
	};
	checkFamily(crossing);
	checkFaults(crossing);
	checkObservations(crossing);
	checkCallouts(crossing);
	return problems;
}

function checkFamily(crossing: Crossing): void {
	const { sources, model, report, mustBe } = crossing;
	const { family, drawing } = sources;
	const parameters = new Set(model.parameters.map((parameter) => parameter.key));
	for (const key of parameters) {
		if (!(key in family.value.parameters)) report(family, ['parameters'], `the model "${model.id}" reads "${key}", which is not given`);
	}
	for (const key of Object.keys(family.value.parameters))
		mustBe(family, ['parameters', key], `a parameter of the model "${model.id}"`, parameters, key);

	const lockouts = new Set(model.lockouts.filter((name) => name !== 'none'));
	for (const name of lockouts) {
		if (!(name in family.value.indications))
			report(family, ['indications'], `the model "${model.id}" can shut down by "${name}", which is not put into words`);
	}
	for (const name of Object.keys(family.value.indications))
		mustBe(family, ['indications', name], 'a shutdown of the model', lockouts, name);
	for (const name of Object.keys(family.value.indicationsAs ?? {}))
		mustBe(family, ['indicationsAs', name], 'a shutdown of the model', lockouts, name);

	mustBeUnique(crossing, family, family.value.demands, ['demands']);
	if (!family.value.demands.some(({ id }) => id === 'none')) report(family, ['demands'], 'the demand "none" must be among them');
	mustBeUnique(crossing, family, family.value.sequence, ['sequence']);
	mustBeUnique(crossing, drawing, drawing.value.places, ['places']);
	if (drawing.value.family !== family.value.id)
		report(drawing, ['family'], `expected "${family.value.id}"; came "${drawing.value.family}"`);
}

/** A near miss is most often a slip of the pen: name the likeliest. */
function nearest(known: ReadonlySet<string>, name: string): string {
	const start = name.slice(0, 4).toLowerCase();
	const close = [...known].filter((other) => other.toLowerCase().startsWith(start)).slice(0, 3);
	return close.length > 0 ? ` (near it: ${close.join(', ')})` : '';
}
