/** Suspicion by name, for printing. */
import type { Suspicion } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';

export interface Believed {
	/** Probability by fault id, the likeliest first; they sum to 1. */
	readonly faults: Readonly<Record<string, number>>;
	/** Probability that each remedy cures, the likeliest first. */
	readonly remedies: Readonly<Record<string, number>>;
	/** Sampled machines left that still fit, in effect. */
	readonly effective: number;
}

export function believed(pack: Pack, { faults, remedies, effective }: Suspicion): Believed {
	return { faults: byName(pack.faults, faults), remedies: byName(pack.remedies, remedies), effective };
}

function byName(items: readonly { readonly id: string }[], chances: Float64Array): Record<string, number> {
	const named = items.map(({ id }, index) => [id, chances[index]!] as const);
	return Object.fromEntries(named.sort(([, one], [, other]) => other - one));
}
