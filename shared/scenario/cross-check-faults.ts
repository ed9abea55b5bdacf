/** Faults, parts and remedies: what they change, cure and need must exist. */
import { idsOf, mustBeUnique, reachableStates, type Crossing } from './crossing.ts';

export function checkFaults(crossing: Crossing): void {
	const { sources, model, remedies, checkIds, mustBe, report } = crossing;
	const { faults, homes, rules } = sources;
	const parameters = new Set(model.parameters.map((parameter) => parameter.key));
	const remedyIds = idsOf(remedies);
	const factIds = idsOf(homes.value.facts);
	const adviceIds = idsOf(rules.value.advice);
	const faultIds = idsOf(faults.value);
	mustBeUnique(crossing, faults, faults.value);
	if (faults.value.length === 0) report(faults, [], 'at least one fault is expected');

	faults.value.forEach((fault, index) => {
		const at = (...path: (string | number)[]) => [index, ...path];
		if (fault.id === 'none') report(faults, at('id'), '"none" stands for the healthy machine and is not a fault');
		if (Object.keys(fault.changes).length === 0) report(faults, at('changes'), 'a fault must change at least one parameter');
		for (const key of Object.keys(fault.changes))
			mustBe(faults, at('changes', key), `a parameter of the model "${model.id}"`, parameters, key);
		if (fault.severity.from <= 0 || fault.severity.to > 1) report(faults, at('severity'), 'severities lie above 0 and up to 1');
		for (const fact of Object.keys(fault.raised)) mustBe(faults, at('raised', fact), 'a household fact', factIds, fact);
		fault.shown.forEach((check, i) => mustBe(faults, at('shown', i), 'a check', checkIds, check));
		fault.cured.forEach((remedy, i) => mustBe(faults, at('cured', i), 'a remedy, or "fit-" and a part', remedyIds, remedy));
		fault.advise.forEach((advice, i) => mustBe(faults, at('advise', i), 'an advice of the rules', adviceIds, advice));
		fault.alike.forEach((other, i) => {
			mustBe(faults, at('alike', i), 'another fault', faultIds, other);
			const twin = faults.value.find(({ id }) => id === other);
			if (other === fault.id) report(faults, at('alike', i), 'a fault is not alike to itself');
			else if (twin && !twin.cured.some((remedy) => fault.cured.includes(remedy))) {
				report(faults, at('alike', i), `"${other}" is declared alike but shares no remedy with "${fault.id}"`);
			}
		});
	});
	checkRemedies(crossing);
}

function checkRemedies(crossing: Crossing): void {
	const { sources, places, mustBe, report, remedies } = crossing;
	const { parts } = sources;
	mustBeUnique(crossing, parts, parts.value.parts, ['parts']);
	mustBeUnique(crossing, parts, parts.value.remedies, ['remedies']);
	const reachable = reachableStates(crossing);
	for (const list of ['parts', 'remedies'] as const) {
		parts.value[list].forEach((item, index) => {
			mustBe(parts, [list, index, 'place'], 'a place of the drawing', places, item.place);
			item.needs.forEach((need, i) =>
				mustBe(parts, [list, index, 'needs', i], 'a state that a step of the rules brings about', reachable, need)
			);
			// Adjusting is done as the appliance runs; all else that disturbs opens something.
			if ('kind' in item && item.kind === 'adjust') return;
			if (item.disturbs.includes('gas') && !item.needs.includes('gas-off'))
				report(parts, [list, index, 'needs'], 'it disturbs gas, so it must need gas-off');
			if (item.disturbs.includes('electrics') && !item.needs.includes('proved-dead')) {
				report(parts, [list, index, 'needs'], 'it disturbs electrics, so it must need electricity-off and proved-dead');
			}
		});
	}
	parts.value.remedies.forEach((remedy, index) => {
		if (remedy.kind === 'fit') report(parts, ['remedies', index, 'kind'], 'fitting is of parts: list it under parts');
		if (remedies.filter(({ id }) => id === remedy.id).length > 1)
			report(parts, ['remedies', index, 'id'], `the id "${remedy.id}" is that of fitting a part`);
	});
}
