/** What the face of an instrument shows, from the callout as it stands. */
import type { CalloutView, CheckOffer, ReadingLine, ToolOffer } from '#shared/callout/view.ts';
import type { InstrumentFace } from '#shared/scenario/schema.ts';

export type Range = ToolOffer['ranges'][number];

/** What every face is given to draw. */
export interface FaceProps {
	/** The last reading taken with it; null where it shows nothing. */
	readonly shown: Pick<ReadingLine, 'text' | 'unit' | 'value'> | null;
	readonly ranges: readonly Range[];
	/** The range it is set to by hand; null where it sets itself, or nothing is chosen yet. */
	readonly range: Range | null;
}

export const toolNames: Readonly<Record<InstrumentFace, string>> = {
	meter: 'Multimeter',
	manometer: 'Manometer',
	thermometer: 'Thermometer',
	analyser: 'Flue-gas analyser',
	'flow-cup': 'Flow cup and watch',
	'rev-counter': 'Rev counter',
	microammeter: 'Microammeter'
};

/** The tool's last reading; null before the first, and for a meter that was fetched for one with a blown fuse. */
export function lastShown(view: Pick<CalloutView, 'readings' | 'checks' | 'events'>, tool: string): ReadingLine | null {
	const taken = new Set(view.checks.filter((check) => check.tool === tool).map(({ id }) => id));
	const last = view.readings.findLast((reading) => taken.has(reading.check));
	const blown = view.events.findLast(({ breaches }) => breaches.some(({ id }) => id === 'meter-on-live-circuit'));
	return last && !(tool === 'multimeter' && blown && blown.index > last.event) ? last : null;
}

/** Whether there is anything to choose: more ranges than one, or where the leads go. */
export const isSettable = (tool: ToolOffer, check: Pick<CheckOffer, 'terminals'>): boolean =>
	tool.ranges.length > 1 || check.terminals !== null;

/** The end of a range as it is marked on a face: `200`, `20k`, `2M`. */
export function endMark(over: number): string {
	if (over >= 1e6) return `${over / 1e6}M`;
	return over >= 1000 ? `${over / 1000}k` : String(over);
}

/** Ranges by what they measure, in their order. */
export function byMeasured(ranges: readonly Range[]): [Range['measures'], Range[]][] {
	const kinds = [...new Set(ranges.map(({ measures }) => measures))];
	return kinds.map((kind) => [kind, ranges.filter(({ measures }) => measures === kind)]);
}

/** Where a value stands between nought and the end of a scale, 0 to 1. */
export function shareOf(value: number, end: number): number {
	return Math.min(1, Math.max(0, value / end));
}

/** A point on a circle about nought, at an angle in degrees clockwise from the top. */
export function around(angle: number, radius: number): { x: number; y: number } {
	const turn = (angle * Math.PI) / 180;
	// To hundredths: server and browser must write the same.
	return { x: Math.round(radius * Math.sin(turn) * 100) / 100, y: Math.round(-radius * Math.cos(turn) * 100) / 100 };
}
