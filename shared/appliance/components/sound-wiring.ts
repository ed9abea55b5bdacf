/** Resistances of wiring and windings that have nothing wrong with them. */

/** From the casing to the earth of the supply [ohm]. Common practice, no source: well under 0.1 over a few metres. */
export const EARTH_OHM = 0.05;
/** A fuse or a limit contact that is whole, with the leads of the meter [ohm]. Common practice, no source. */
export const CLOSED_OHM = 0.1;
/** Windings of what a board switches at mains volts, such as pump, fan and gas valve: of that order [ohm]. Common practice, no source. */
export const LOAD_OHM = 1000;
