/** Finish: proved under the demand complained of, checked after, the cause behind the cause advised, the customer told. */
import { checksDue } from '#shared/callout/disturbed.ts';
import { foundAdvice } from '#shared/scenario/safety.ts';
import { line } from './bill.ts';
import type { Case } from './bill.ts';
import type { MarkLine } from './mark-sheet.ts';

export function finishLines(one: Case): MarkLine[] {
	const { callout, state } = one;
	const { marks, weighing } = callout.pack.rules;
	if (!state.cured) return [line('finish', null, marks.finish, 'There was no repair to prove, and the customer is as they were.')];
	const part = (share: number, says: string) => line('finish', null, share * marks.finish, says);
	const lines: MarkLine[] = [];
	if (state.provedAt === null) lines.push(part(weighing.finish.proved, 'The repair was not proved under the demand complained of.'));
	const missing = missingChecks(one);
	if (missing.length > 0)
		lines.push(part(weighing.finish.checked, `Left without the checks that must follow the work: ${missing.join('; ')}.`));
	const untold = adviceWords(
		one,
		(callout.fault?.advise ?? []).filter((id) => !state.told.includes(id))
	);
	if (untold.length > 0) lines.push(part(weighing.finish.cause, `The customer was not told: ${untold.join(' ')}`));
	if (!wasTold(one)) lines.push(part(weighing.finish.told, 'The customer was not told what was found and done.'));
	const untrue = adviceWords(one, untrueAdvice(one));
	if (untrue.length > 0)
		lines.push(line('finish', null, untrue.length * weighing.untrue, `Told the customer what is not so here: ${untrue.join(' ')}`));
	return lines.length > 0
		? lines
		: [line('finish', state.provedAt, 0, 'Proved under the demand complained of, checked, and the customer told.')];
}

/** Names of checks that the work called for and that were not taken after it. */
function missingChecks({ callout, state }: Case): string[] {
	const due = checksDue(callout.pack, state);
	return callout.pack.checks.filter(({ id }) => due.includes(id)).map(({ name }) => name);
}

function wasTold({ state }: Case): boolean {
	return state.told.includes(foundAdvice);
}

/** Advice that belongs to other faults alone, and to nothing that is known of this household. */
function untrueAdvice({ callout, state }: Case): string[] {
	const { faults } = callout.pack;
	return state.told.filter((id) => {
		const givenFor = faults.filter((fault) => fault.advise.includes(id));
		if (givenFor.length === 0 || callout.fault?.advise.includes(id)) return false;
		return !givenFor.some((fault) => callout.household.facts.some((fact) => (fault.raised[fact] ?? 1) > 1));
	});
}

const adviceWords = ({ callout }: Case, ids: readonly string[]): string[] =>
	callout.pack.advice.filter((advice) => ids.includes(advice.id)).map((advice) => advice.says);
