/** Debriefs, worked out where they keep nobody else waiting. */
import type { Debrief } from '#shared/marking/mark-sheet.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { evidenceFor } from '../evidence/evidence.ts';
import { debriefWeigher } from '../weighing/weigher.ts';
import type { Path } from '../weighing/weigher-worker.ts';

/**
 * Works out the debrief of a path, after the pack's evidence table, which is made where it is missing.
 * @throws WeighingFailed, or what the making of the table failed with
 */
export async function debriefFor(pack: Pack, { seed, fault, actions }: Path): Promise<Debrief> {
	return debriefWeigher.weigh(pack, await evidenceFor(pack), 'debrief', { seed, fault, actions });
}
