/**
 * The drawing kit: a line symbol of our own for each kind of component, drawn round its middle in the drawing's units.
 * `body` is filled with paper so that pipes end at it; `ink` is its outline's detail, `fine` lesser lines, `solid` what is filled with ink.
 */
export interface Symbol {
	/** Width and height that a pointer may hit. */
	readonly hit: readonly [number, number];
	readonly body: string;
	readonly ink?: string;
	readonly fine?: string;
	readonly solid?: string;
	/** The part that moves, and how: turning about a point, sliding along, or flickering. It is not drawn by the lines above. */
	readonly moves?: { readonly path: string; readonly how: 'turn' | 'slide' | 'flicker'; readonly about?: readonly [number, number] };
}

const circle = (r: number, x = 0, y = 0) => `M${x - r},${y}a${r},${r} 0 1 0 ${2 * r},0a${r},${r} 0 1 0 ${-2 * r},0`;
const box = (x: number, y: number, w: number, h: number) => `M${x},${y}h${w}v${h}h${-w}Z`;
/** Lines from one radius to another, evenly round a circle. */
const spokes = (count: number, inner: number, outer: number, lean = 0) =>
	Array.from({ length: count }, (_, i) => {
		const a = (i / count) * 2 * Math.PI;
		const at = (r: number, turn: number) => `${(r * Math.sin(turn)).toFixed(1)},${(-r * Math.cos(turn)).toFixed(1)}`;
		return `M${at(inner, a)}L${at(outer, a + lean)}`;
	}).join('');
const uprights = (from: number, to: number, step: number, top: number, bottom: number) => {
	let d = '';
	for (let x = from; x <= to; x += step) d += `M${x},${top}V${bottom}`;
	return d;
};
const bowTie = 'M-9,-13H9L-9,13H9Z';

export const symbols: Readonly<Record<string, Symbol>> = {
	customer: { hit: [52, 44], body: `${circle(5.5, 0, -7)}M-12,13C-12,-3 12,-3 12,13Z`, fine: 'M-4,5L0,9L4,5' },
	'room-control': { hit: [52, 44], body: box(-12, -14, 24, 28), ink: circle(5, 0, 5), fine: `${box(-8, -10, 16, 6)}M0,5L3,1.5` },
	spur: {
		hit: [52, 44],
		body: box(-16, -13, 32, 26),
		ink: box(-10, -7, 8, 14),
		fine: `${box(4, -7, 7, 14)}M7.5,-7V7`,
		solid: box(-8, -5, 4, 5)
	},
	terminal: { hit: [44, 44], body: 'M-9,14V-2H9V14Z', ink: 'M-16,-2H16M-12,-8H12', fine: 'M-5,14V-2M5,14V-2M-6,-13H6' },
	board: {
		hit: [88, 60],
		body: box(-44, -30, 88, 60),
		ink: box(-36, -25, 14, 6),
		fine: `M-29,-25V-19${[-38, -28, -18, -8, 2, 12, 22, 32].map((x) => box(x, 22, 6, 5)).join('')}${box(20, -25, 16, 6)}`
	},
	dial: { hit: [48, 44], body: circle(12), ink: 'M0,0L6,-8', fine: spokes(12, 14, 16.5), solid: circle(1.8) },
	fan: { hit: [44, 44], body: circle(19), ink: circle(4), moves: { path: spokes(7, 5, 16, 0.55), how: 'turn' } },
	injector: { hit: [44, 44], body: 'M-8,12V5L-2.5,-2V-12H2.5V-2L8,5V12Z', fine: 'M-12,-2H-4M4,-2H12' },
	'gas-valve': { hit: [44, 44], body: `${bowTie}${box(-17, -5, 8, 10)}`, ink: 'M-9,0H0', fine: 'M-17,-2H-9M-17,2H-9' },
	burner: {
		hit: [84, 34],
		body: box(-40, -9, 80, 13),
		fine: uprights(-34, 34, 6.8, -1, 4),
		moves: { path: [-34, -20, -7, 7, 20, 34].map((x) => `M${x},7q-2,4 0,8`).join(''), how: 'flicker', about: [0, 7] }
	},
	electrode: { hit: [44, 40], body: box(-9, -5, 20, 10), ink: 'M-9,0H-20L-33,10', fine: 'M-4,-5V5M1,-5V5M6,-5V5M11,0H18' },
	'main-exchanger': {
		hit: [104, 78],
		body: box(-52, -42, 104, 84),
		fine: `${box(-48, -38, 96, 76)}${uprights(-42, 42, 6, -34, -22)}M-44,-18H44`
	},
	// A coil that comes in and goes out at the right, over fins that the flame heats from below.
	'coil-exchanger': {
		hit: [104, 78],
		body: box(-52, -42, 104, 84),
		fine: `${box(-48, -38, 96, 76)}M52,-22H46${'q-2,-13 -7,-13t-7,13'.repeat(6)}H-44V20H52${uprights(-42, 42, 6, 26, 36)}`
	},
	'test-point': { hit: [44, 40], body: circle(7.5), ink: 'M7.5,0H14M14,-4V4', solid: circle(2) },
	trap: {
		hit: [44, 44],
		body: 'M-11,-14H11V9Q11,15 5,15H-5Q-11,15 -11,9Z',
		ink: 'M0,-14V7',
		fine: 'M-11,0H-2M2,0H11M-7,4H-3M3,4H7M-7,8H7'
	},
	'clip-sensor': { hit: [44, 40], body: box(-9, -6, 18, 12), ink: 'M-9,0H-15', solid: circle(2.6), fine: 'M-9,-3H9M-9,3H9' },
	limit: { hit: [44, 40], body: circle(9.5), ink: 'M-5,2L4,-4.5', solid: `${circle(1.7, -5.5, 2)}${circle(1.7, 5.5, 2)}` },
	'three-way': {
		hit: [48, 40],
		body: 'M-9,-18H9L0,0ZM-9,18H9L0,0ZM-18,-9V9L0,0Z',
		ink: 'M0,0H40',
		solid: circle(3)
	},
	motor: {
		hit: [44, 44],
		body: circle(14),
		ink: 'M-6,6V-6L0,2L6,-6V6',
		// The collar on the pin that pushes the valve.
		moves: { path: 'M-32,-3.5V3.5M-28,-3.5V3.5', how: 'slide' }
	},
	'plate-exchanger': {
		hit: [80, 52],
		body: box(-40, -26, 80, 52),
		fine: `${uprights(-37, -31, 3, -26, 26)}${uprights(31, 37, 3, -26, 26)}`
	},
	vessel: { hit: [44, 52], body: 'M-12,-12a12,12 0 0 1 24,0V12a12,12 0 0 1 -24,0Z', ink: 'M-12,2Q0,-8 12,2', fine: 'M0,24V29' },
	pump: {
		hit: [44, 44],
		body: circle(19),
		ink: 'M-13,8L0,-17L13,8',
		fine: circle(4.5, 0, 2),
		moves: { path: 'M-4.5,2H4.5', how: 'turn', about: [0, 2] }
	},
	turbine: {
		hit: [44, 40],
		body: circle(16),
		ink: circle(3),
		solid: circle(2.2, 15, -13),
		moves: { path: spokes(6, 3, 13, 0.35), how: 'turn' }
	},
	// A vane in the pipe, and the contact that its rod closes.
	'flow-switch': { hit: [44, 40], body: circle(14), ink: 'M-8,7L0,-3L8,7M0,-3V-9', fine: 'M14,-4H19M14,4H19', solid: circle(2, 19, -4) },
	// A diaphragm between two chambers, with the contact above it.
	'air-switch': { hit: [44, 44], body: circle(13), ink: 'M-13,2Q-6,-3 0,2T13,2', fine: 'M0,2V-5M-6,-5H6', solid: circle(1.8, 0, -8) },
	'test-cock': { hit: [44, 44], body: 'M-8,-12H8L-8,12H8Z', ink: 'M0,0H-14M-14,-4V4', fine: 'M-17,-2V2' },
	meter: { hit: [48, 44], body: box(-19, -14, 38, 28), fine: `${box(-14, -9, 28, 9)}M-7,-9V0M0,-9V0M7,-9V0`, ink: 'M-6,7H6' },
	'pipe-band': { hit: [44, 44], body: box(-9, -9, 18, 18), fine: 'M-9,-3L-3,-9M-9,3L3,-9M-9,9L9,-9M-3,9L9,-3M3,9L9,3' },
	radiator: { hit: [68, 40], body: box(-34, -18, 68, 36), fine: uprights(-26, 26, 6.5, -14, 14) },
	strainer: { hit: [44, 44], body: 'M0,-12L9,0L0,12L-9,0Z', ink: 'M5,6L12,13M9,16L15,10', fine: 'M-5,-2H5M-7,2H7M-3,-6H3M-3,6H3' },
	'stop-valve': { hit: [44, 44], body: 'M-9,-12H9L-9,12H9Z', ink: 'M0,0H-15M-15,-6V6' },
	mixer: { hit: [44, 44], body: 'M-14,-10H14V1H-14Z', ink: 'M0,1V7Q0,11 5,11H7M0,-4L8,-15', fine: 'M7,14V17' },
	tap: { hit: [44, 44], body: 'M-5,-16H5V1H-5Z', ink: 'M5,-8H11Q16,-8 16,-2V3M-5,-8H-13M-13,-14V-2', fine: 'M16,6V10M16,13V16' },
	outlet: { hit: [44, 44], body: 'M-3,-16H3V-4H8L13,5H-13L-8,-4H-3Z', fine: 'M-9,9V13M-3,9V16M3,9V13M9,9V16' }
};

/** What a run carries: its name in the key to the lines. How it is drawn is in `Runs.svelte`. */
export const carried = {
	flow: 'Flow',
	return: 'Return',
	hot: 'Hot tap water',
	cold: 'Cold tap water',
	gas: 'Gas',
	air: 'Air',
	flue: 'Flue',
	condensate: 'Condensate',
	live: 'Live',
	neutral: 'Neutral',
	signal: 'Signal'
} as const;
