/** What a paper asks for, before it is drawn: how many callouts of which family and area, and how many drills of which kind. */
import { z } from 'zod';
import { areas, type Area } from '#shared/scenario/areas.ts';
import { drillKinds } from '#shared/scenario/curriculum.ts';

const area = z.enum(Object.keys(areas) as [Area, ...Area[]]);
const count = z.int().min(1).max(20);

export const blueprintLine = z.discriminatedUnion('kind', [
	/** Callouts of a family whose hidden fault lies in an area; in any of its areas where that is null. */
	z.strictObject({ kind: z.literal('callout'), family: z.string().min(1).max(80), area: area.nullable(), count }),
	z.strictObject({ kind: z.literal('drill'), drill: z.enum(drillKinds), count })
]);
export type BlueprintLine = z.infer<typeof blueprintLine>;

/** Items that a paper may have. */
export const mostSlots = 40;

export const blueprint = z.strictObject({ lines: z.array(blueprintLine).min(1).max(60) }).refine(({ lines }) => {
	return lines.reduce((sum, line) => sum + line.count, 0) <= mostSlots;
}, `a paper has at most ${mostSlots} items`);
export type Blueprint = z.infer<typeof blueprint>;

/** One place in the paper, and what stands there in every variant. */
export type Slot = BlueprintLine extends infer Line
	? Line extends BlueprintLine
		? Omit<Line, 'count'> & { readonly slot: number }
		: never
	: never;

/** The places of a paper in order: callouts first, drills after, each line as often as it says. */
export function slotsOf({ lines }: Blueprint): Slot[] {
	const inOrder = [...lines.filter(({ kind }) => kind === 'callout'), ...lines.filter(({ kind }) => kind === 'drill')];
	return inOrder
		.flatMap(({ count, ...line }) => Array.from({ length: count }, () => line))
		.map((line, slot) => ({ ...line, slot }) as Slot);
}
