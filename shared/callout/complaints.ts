/** Which complaints a simulated appliance gives rise to. A complaint is never impossible: each of its conditions holds. */
import type { Demand, Quantities } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Complaint } from '#shared/scenario/schema.ts';

/** The settled run of one machine under a demand; callers keep what they have already run. */
export type Run = (demand: Demand) => Quantities;

/** Whether every condition of the complaint holds for the true quantities. */
export function complaintHolds(complaint: Pick<Complaint, 'when'>, run: Run): boolean {
	return complaint.when.every(({ demand, quantity, above, below }) => {
		const value = run(demand)[quantity];
		return value !== undefined && (above === undefined || value > above) && (below === undefined || value < below);
	});
}

/** The complaints that fit, in the pack's order. */
export function fittingComplaints(pack: Pick<Pack, 'complaints'>, run: Run): readonly Complaint[] {
	return pack.complaints.filter((complaint) => complaintHolds(complaint, run));
}

/** @returns the settled runs of one machine, each made once */
export function runsOf(settle: Run): Run {
	const made = new Map<Demand, Quantities>();
	return (demand) => {
		const known = made.get(demand);
		if (known) return known;
		const fresh = settle(demand);
		made.set(demand, fresh);
		return fresh;
	};
}
