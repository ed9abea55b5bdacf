/** When a remedy may be called proved: it is suspected enough, and somebody has looked. */
import type { Sureness } from '#shared/callout/action.ts';
import { shownCheck } from '#shared/callout/setting.ts';
import type { Reading } from '#shared/callout/state.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault } from '#shared/scenario/schema.ts';

/** Checks read so far, whatever the demand. */
export function checksRead(readings: readonly Pick<Reading, 'check' | 'setting'>[]): ReadonlySet<string> {
	return new Set(readings.flatMap((reading) => shownCheck(reading) ?? []));
}

/** The likeliest fault that a remedy would cure. */
export function suspectOf(pack: Pack, faults: ArrayLike<number>, remedy: string): Fault | null {
	let suspect = -1;
	pack.faults.forEach((fault, index) => {
		if (fault.cured.includes(remedy) && (suspect < 0 || faults[index] > faults[suspect])) suspect = index;
	});
	return pack.faults[suspect] ?? null;
}

/** Whether a check that shows the remedy's suspect has been taken. However likely the complaint makes a fault, nobody has proved it unseen. */
export function isShown(pack: Pack, faults: ArrayLike<number>, read: ReadonlySet<string>, remedy: string): boolean {
	return suspectOf(pack, faults, remedy)?.shown.some((check) => read.has(check)) ?? false;
}

/**
 * How sure an honest engineer would say they are of a remedy.
 * @param chance that it cures
 */
export function surenessOf(pack: Pack, chance: number, shown: boolean): Sureness {
	const { proved, likely } = pack.rules.proof;
	if (chance >= proved) return shown ? 'proved' : 'likely';
	return chance >= likely ? 'likely' : 'guess';
}
