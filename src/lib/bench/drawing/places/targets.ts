/**
 * What a finger may hit of each place: its symbol, and its name as far as that lies clear of every other place. All targets of a drawing
 * are found together, so that none lies over another.
 */
import type { Drawing, Place } from '#shared/scenario/schema.ts';
import { labelBox, type Box } from '../layout';
import { symbols } from '../symbols';

export interface Target {
	readonly place: Place;
	readonly symbol: Box;
	/** Null where the name lies within the symbol, or has no room of its own. */
	readonly name: Box | null;
}

const ordinary = [44, 44] as const;
/** Round a name, for a finger; and the least of a name that is worth hitting. */
const round = 3;
const least = { width: 16, height: 10 };

export function symbolTarget({ at: [x, y], symbol }: Place): Box {
	const [width, height] = symbols[symbol]?.hit ?? ordinary;
	return { left: x - width / 2, top: y - height / 2, right: x + width / 2, bottom: y + height / 2 };
}

export function targetsOf(drawing: Drawing): Target[] {
	const taken = drawing.places.map((place) => ({ place, box: symbolTarget(place) }));
	return drawing.places.map((place) => {
		const symbol = symbolTarget(place);
		const { left, top, right, bottom } = labelBox(place);
		const wide = { left: left - round, top: top - round, right: right + round, bottom: bottom + round };
		const name = within(wide, symbol)
			? null
			: taken.filter((other) => other.place !== place).reduce<Box | null>((free, { box }) => free && clearOf(free, box), wide);
		if (name) taken.push({ place, box: name });
		return { place, symbol, name };
	});
}

const within = (a: Box, b: Box) => a.left >= b.left && a.right <= b.right && a.top >= b.top && a.bottom <= b.bottom;

/** What is left of a box beside another, cut where that costs least; null where it is too little to hit. */
function clearOf(box: Box, other: Box): Box | null {
	if (box.left >= other.right || other.left >= box.right || box.top >= other.bottom || other.top >= box.bottom) return box;
	const cuts: Box[] = [
		{ ...box, left: other.right },
		{ ...box, right: other.left },
		{ ...box, top: other.bottom },
		{ ...box, bottom: other.top }
	];
	const area = ({ left, top, right, bottom }: Box) => Math.max(0, right - left) * Math.max(0, bottom - top);
	const best = cuts.reduce((most, cut) => (area(cut) > area(most) ? cut : most));
	return best.right - best.left >= least.width && best.bottom - best.top >= least.height ? best : null;
}
