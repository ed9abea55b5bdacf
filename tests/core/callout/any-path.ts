/** Arbitrary actions on a pack: mostly of things that exist, now and then of things that do not. */
import fc from 'fast-check';
import { demands } from '#shared/appliance/model.ts';
import { mostSuspects, sureness, type Action } from '#shared/callout/action.ts';
import { readsOf } from '#shared/callout/prediction.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { rotaryOf, toolOf } from '#shared/scenario/rotary.ts';

export function anyAction(pack: Pack): fc.Arbitrary<Action> {
	const idOf = (items: readonly { readonly id: string }[]) =>
		fc.oneof(
			{ weight: 20, arbitrary: fc.constantFrom(...items.map(({ id }) => id)) },
			{ weight: 1, arbitrary: fc.constant('no-such-thing') }
		);
	const some = (items: readonly { readonly id: string }[], maxLength: number) => fc.array(idOf(items), { maxLength });
	return fc.oneof(
		{ weight: 5, arbitrary: fc.record({ kind: fc.constant('demand' as const), demand: fc.constantFrom(...demands) }) },
		{ weight: 8, arbitrary: fc.record({ kind: fc.constant('check' as const), check: idOf(pack.checks) }) },
		{ weight: 4, arbitrary: setByHand(pack) },
		{ weight: 8, arbitrary: fc.record({ kind: fc.constant('step' as const), step: idOf(pack.rules.steps) }) },
		{
			weight: 4,
			arbitrary: fc.record({ kind: fc.constant('remedy' as const), remedy: idOf(pack.remedies), sure: fc.constantFrom(...sureness) })
		},
		{ weight: 1, arbitrary: fc.record({ kind: fc.constant('judge' as const), still: some(pack.faults, 4) }) },
		{ weight: 3, arbitrary: anyPrediction(pack) },
		{ weight: 2, arbitrary: fc.constant({ kind: 'prove' as const }) },
		{ weight: 1, arbitrary: fc.record({ kind: fc.constant('leave' as const), told: some(pack.advice, 3) }) }
	);
}

/** What a check would read under two or three faults; now and then of what there is not. */
export function anyPrediction(pack: Pack): fc.Arbitrary<Extract<Action, { kind: 'predict' }>> {
	const odd = { weight: 1, arbitrary: fc.constant('no-such-thing') };
	return fc.constantFrom(...pack.checks).chain((check) =>
		fc.record({
			kind: fc.constant('predict' as const),
			check: fc.oneof({ weight: 20, arbitrary: fc.constant(check.id) }, odd),
			expects: fc.uniqueArray(
				fc.record({
					fault: fc.oneof({ weight: 20, arbitrary: fc.constantFrom(...pack.faults.map(({ id }) => id)) }, odd),
					reads: fc.oneof({ weight: 20, arbitrary: fc.constantFrom(...readsOf(check.words?.map(({ word }) => word) ?? null)) }, odd)
				}),
				{ minLength: 2, maxLength: mostSuspects, selector: ({ fault }) => fault }
			)
		})
	);
}

/** A check with its instrument set by hand, rightly or wrongly. */
function setByHand(pack: Pack): fc.Arbitrary<Action> {
	const measured = pack.checks.filter(({ instrument }) => instrument);
	return fc.constantFrom(...measured).chain(({ id, instrument, terminals }) => {
		const own = pack.instruments.find((one) => one.id === instrument)!;
		const ranges = rotaryOf(pack.instruments, toolOf(own)).map((range) => range.id);
		const leads = [...(terminals?.points.map((point) => point.id) ?? []), 'no-such-point'];
		return fc.record(
			{
				kind: fc.constant('check' as const),
				check: fc.constant(id),
				range: fc.constantFrom(...ranges, 'no-such-range'),
				terminals: fc.tuple(fc.constantFrom(...leads), fc.constantFrom(...leads))
			},
			{ requiredKeys: ['kind', 'check'] }
		);
	});
}

export function anyPath(pack: Pack, maxLength = 40): fc.Arbitrary<Action[]> {
	return fc.array(anyAction(pack), { maxLength });
}
