/** When a remedy may be called proved: it is suspected enough, and something was read that shows it. */
import type { Sureness } from '#shared/callout/action.ts';
import { shownCheck } from '#shared/callout/setting.ts';
import type { Reading } from '#shared/callout/state.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault } from '#shared/scenario/schema.ts';
import type { EvidenceTable } from './evidence.ts';
import type { Evidence } from './likelihood.ts';
import { shownFrom, timesLikelier } from './speaks-for.ts';

/** Readings that can show anything, whatever the demand: those taken as a check means it, by whatever setting. */
export const wholeReadings = (readings: readonly Reading[]): readonly Reading[] =>
	readings.filter((reading) => shownCheck(reading) !== null);

const checkOf = ({ check, setting }: Evidence): string | null => (setting ? setting.stands : check);

/** The index of the likeliest fault that a remedy would cure, -1 where it cures none. */
export function suspectIndex(pack: Pack, faults: ArrayLike<number>, remedy: string): number {
	let suspect = -1;
	pack.faults.forEach((fault, index) => {
		if (fault.cured.includes(remedy) && (suspect < 0 || faults[index] > faults[suspect])) suspect = index;
	});
	return suspect;
}

/** The likeliest fault that a remedy would cure. */
export const suspectOf = (pack: Pack, faults: ArrayLike<number>, remedy: string): Fault | null =>
	pack.faults[suspectIndex(pack, faults, remedy)] ?? null;

/**
 * How far each check that shows a fault speaks for it, by its most telling reading.
 * @returns by check, times likelier than on a sound appliance, > 1; what speaks against the fault is for suspicion to weigh
 */
export function spokenFor(pack: Pack, table: EvidenceTable, fault: number, readings: readonly Evidence[]): ReadonlyMap<string, number> {
	const times = new Map<string, number>();
	for (const reading of readings) {
		const check = checkOf(reading);
		if (check === null || !pack.faults[fault]?.shown.includes(check)) continue;
		const speaks = timesLikelier(pack, table, fault, reading);
		if (speaks > (times.get(check) ?? 1)) times.set(check, speaks);
	}
	return times;
}

/**
 * Whether something was read that shows the remedy's suspect. However likely the complaint makes a fault, a complaint and a sound reading
 * prove nothing.
 *
 * The rule, ours: of the checks that show the suspect, each counts once, by the reading that tells the most, as many times as that reading is
 * likelier with the fault than on a sound appliance under the same demand; together they must come to fifteen times. A measurement out of
 * its band, or a look that is hardly ever misjudged, does it alone. A sense that is misjudged one time in ten is worth nine or ten times at
 * most where the next word is the sound one, and needs a second check beside it. A reading that a sound appliance gives too, because the
 * demand does not try the fault, is worth about one.
 */
export function isShown(
	pack: Pack,
	table: EvidenceTable,
	faults: ArrayLike<number>,
	readings: readonly Evidence[],
	remedy: string
): boolean {
	let times = 1;
	for (const one of spokenFor(pack, table, suspectIndex(pack, faults, remedy), readings).values()) times *= one;
	return times >= shownFrom;
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
