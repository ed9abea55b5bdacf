/** What a generator of these kinds stands on: a family's pack, and its evidence table where it weighs readings. */
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Ground } from '../drill.ts';

/** @throws RangeError where a drill of a family is asked for without one */
export function packOf({ pack }: Ground): Pack {
	if (!pack) throw new RangeError('this drill is of an appliance family: it needs a pack');
	return pack;
}

/** @throws RangeError where the family's evidence is not made yet */
export function evidenceOf(ground: Ground): { readonly pack: Pack; readonly table: EvidenceTable } {
	const pack = packOf(ground);
	if (!ground.table) throw new RangeError('this drill weighs readings: it needs an evidence table');
	return { pack, table: ground.table };
}
