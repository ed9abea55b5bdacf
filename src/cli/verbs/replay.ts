/** An attempt played again: where it led, what was believed after each action, and its marks. */
import type { CalloutState } from '#shared/callout/state.ts';
import { beliefAfter } from '#shared/diagnosis/belief.ts';
import { mark } from '#shared/marking/mark.ts';
import type { MarkSheet } from '#shared/marking/mark-sheet.ts';
import { evidenceFor } from '../../lib/server/evidence/evidence.ts';
import { attemptFrom } from '../attempt.ts';
import { believed, type Believed } from '../believed.ts';
import * as option from '../options.ts';
import { table } from '../table.ts';
import type { Verb } from '../verb.ts';

interface Result {
	readonly family: string;
	readonly packHash: string;
	readonly seed: number;
	readonly fault: string;
	readonly severity: number;
	readonly complaint: string;
	/** Sets as lists. */
	readonly state: Omit<CalloutState, 'site' | 'fetched'> & { readonly site: readonly string[]; readonly fetched: readonly string[] };
	/** Before anything was done, and after each action: one more than there are actions. */
	readonly suspicion: readonly Believed[];
	/** Null where there is no fault to mark against. */
	readonly marks: MarkSheet | null;
}

export const replay: Verb = {
	name: 'replay',
	says: 'State, suspicion after each action, and marks of an attempt.',
	options: { file: option.file },
	async run(given, packs): Promise<Result> {
		const { callout, state } = attemptFrom(given.must(option.file), packs);
		const { pack } = callout;
		const evidence = await evidenceFor(pack);
		const after = Array.from({ length: state.events.length + 1 }, (_, events) => beliefAfter(callout, state, evidence, events));
		return {
			family: pack.family.id,
			packHash: pack.hash,
			seed: callout.seed,
			fault: callout.fault?.id ?? 'none',
			severity: callout.severity,
			complaint: callout.complaintSays,
			state: { ...state, site: [...state.site], fetched: [...state.fetched] },
			suspicion: after.map((belief) => believed(pack, belief)),
			marks: callout.fault ? mark(callout, state, evidence) : null
		};
	},
	show({ state, suspicion, marks }: Result): string {
		const path = state.events.map(({ index, action, minute, minutes, spent, readings, breaches }) => {
			const [likeliest, chance] = Object.entries(suspicion[index + 1]!.faults)[0]!;
			const { kind, ...rest } = action;
			const read = readings.map(({ check, text, unit }) => `${check} ${text} ${unit}`.trim()).join('; ');
			return [
				minute,
				`${kind} ${Object.values(rest).flat().join(' ')}`.trim(),
				minutes,
				spent,
				read || breaches.join(', '),
				likeliest,
				chance
			];
		});
		const bill = marks?.lines.map(({ criterion, lost, says }) => [criterion, lost, says] as const) ?? [];
		return [
			table(['minute', 'action', 'minutes', 'spent', 'readings or breaches', 'likeliest', 'suspicion'], path),
			table(['criterion', 'lost', 'why'], bill),
			marks ? `${marks.total} of ${marks.outOf}${marks.failed ? ', failed on safety' : ''}. Recall: ${marks.recall}.` : 'Not marked.'
		].join('\n\n');
	}
};
