/** Households, complaints and rules: what makes and ends a callout. */
import { idsOf, mustBeUnique, type Crossing } from './crossing.ts';
import { canBeComplainedOf } from './in-common.ts';
import { foundAdvice, limitIds, safetyRuleIds, scaldAdvice } from './safety.ts';
import { openingSite, safeStates } from './site.ts';

/** A set of complaints is kept as the bits of one 32-bit number. */
const mostComplaints = 32;

export function checkCallouts(crossing: Crossing): void {
	checkHouseholds(crossing);
	checkComplaints(crossing);
	checkRules(crossing);
}

function checkHouseholds(crossing: Crossing): void {
	const { sources, known, mustBe } = crossing;
	const { homes } = sources;
	const facts = idsOf(homes.value.facts);
	mustBeUnique(crossing, homes, homes.value.households, ['households']);
	mustBeUnique(crossing, homes, homes.value.facts, ['facts']);
	homes.value.households.forEach((household, index) => {
		const at = (...path: (string | number)[]) => ['households', index, ...path];
		household.facts.forEach((fact, i) => mustBe(homes, at('facts', i), 'a household fact', facts, fact));
		for (const fact of Object.keys(household.maybe)) mustBe(homes, at('maybe', fact), 'a household fact', facts, fact);
		for (const key of Object.keys(household.parameters))
			mustBe(homes, at('parameters', key), 'a parameter of the model, or of another in stock', known.parameters, key);
	});
	homes.value.facts.forEach((fact, index) => {
		for (const key of Object.keys(fact.parameters)) {
			mustBe(homes, ['facts', index, 'parameters', key], 'a parameter of the model, or of another in stock', known.parameters, key);
		}
	});
}

function checkComplaints(crossing: Crossing): void {
	const { sources, model, known, checkIds, mustBe, report } = crossing;
	const { complaints, checks, family } = sources;
	mustBeUnique(crossing, complaints, complaints.value);
	if (complaints.value.length > mostComplaints)
		report(complaints, [mostComplaints], `no more than ${mostComplaints} complaints can be kept apart`);
	complaints.value.forEach((complaint, index) => {
		const at = (...path: (string | number)[]) => [index, ...path];
		complaint.when.forEach((condition, i) => {
			mustBe(
				complaints,
				at('when', i, 'quantity'),
				'a quantity of the model, or of another in stock',
				known.quantities,
				condition.quantity
			);
			if (condition.above === undefined && condition.below === undefined)
				report(complaints, at('when', i), 'a condition needs "above" or "below"');
		});
		if (!canBeComplainedOf(complaint, family.value, model)) return;
		const { demand, checks: proofs } = complaint.proves;
		proofs.forEach((id, i) => {
			mustBe(complaints, at('proves', 'checks', i), 'a check', checkIds, id);
			const check = checks.value.find((other) => other.id === id);
			if (!check) return;
			if (!check.under.includes(demand)) report(complaints, at('proves', 'checks', i), `the check "${id}" is not taken under "${demand}"`);
			const need = check.needs.find((state) => !openingSite.includes(state));
			if (need)
				report(complaints, at('proves', 'checks', i), `the check "${id}" needs ${need}, but a repair is proved with everything restored`);
		});
	});
}

function checkRules(crossing: Crossing): void {
	const { sources, remedies, checkIds, mustBe, report } = crossing;
	const { rules, checks: looks } = sources;
	const { steps, safety, limits, after, advice, marks, proof } = rules.value;
	mustBeUnique(crossing, rules, steps, ['steps']);
	mustBeUnique(crossing, rules, safety, ['safety']);
	mustBeUnique(crossing, rules, advice, ['advice']);
	const given = idsOf(safety);
	for (const id of safetyRuleIds) if (!given.has(id)) report(rules, ['safety'], `the rule "${id}" is expected among them`);
	for (const id of limitIds) if (!(id in limits)) report(rules, ['limits'], `the limit "${id}" is expected among them`);
	for (const id of [scaldAdvice, foundAdvice]) {
		if (!idsOf(advice).has(id)) report(rules, ['advice'], `the advice "${id}" is expected among them`);
	}
	const settable = new Set(steps.flatMap((step) => step.sets));
	for (const state of safeStates) if (!settable.has(state)) report(rules, ['steps'], `no step brings about "${state}"`);
	const disturbs = new Set<string>([...remedies, ...looks.value].flatMap((work) => work.disturbs));
	for (const [work, checks] of Object.entries(after)) {
		// What a family has no part in, it need not be able to check.
		if (!disturbs.has(work)) continue;
		checks.forEach((id, i) => mustBe(rules, ['after', work, i], 'a check of the family', checkIds, id));
	}
	const sum = marks.safety + marks.parts + marks.economy + marks.evidence + marks.finish;
	if (Math.abs(sum - 100) > 1e-9) report(rules, ['marks'], `marks must sum to 100; they sum to ${sum}`);
	if (proof.likely >= proof.proved || proof.proved > 1 || proof.likely <= 0) report(rules, ['proof'], 'expected 0 < likely < proved <= 1');
}
