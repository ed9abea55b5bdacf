/** What a fault does to a machine. */
import type { Parameters } from '#shared/appliance/model.ts';
import type { Change, Fault } from './schema.ts';

/**
 * The machine with the fault at a severity. At severity 0 the very machine given comes back.
 * @param severity 0 (healthy) to 1
 * @throws RangeError when the severity lies outside
 */
export function applyFault(sound: Parameters, fault: Pick<Fault, 'changes'>, severity: number): Parameters {
	if (!(severity >= 0 && severity <= 1)) throw new RangeError(`severity is expected from 0 to 1; came ${severity}`);
	if (severity === 0) return sound;
	const changed = Object.entries(fault.changes).map(([key, change]) => [key, changedTo(sound[key] ?? 0, change, severity)] as const);
	return { ...sound, ...Object.fromEntries(changed) };
}

function changedTo(healthy: number, change: Change, severity: number): number {
	if ('to' in change) return healthy + (change.to - healthy) * severity;
	if ('times' in change) return healthy * (1 + (change.times - 1) * severity);
	return change.becomes;
}
