/** Conversions that the physics or a check needs, each exact by definition of its units. */

/** 0 degC in kelvin [K]. */
export const zeroCelsiusK = 273.15;

/** @param tempC [degC] @returns [K] */
export const kelvinOf = (tempC: number): number => tempC + zeroCelsiusK;
/** @param tempK [K] @returns [degC] */
export const celsiusOf = (tempK: number): number => tempK - zeroCelsiusK;

/** @param mbar [mbar] @returns [bar] */
export const barOfMbar = (mbar: number): number => mbar / 1000;
/** @param bar [bar] @returns [mbar] */
export const mbarOfBar = (bar: number): number => bar * 1000;

/** @param lpm [l/min] @returns [m3/h] */
export const m3hOfLpm = (lpm: number): number => (lpm * 60) / 1000;
/** @param m3h [m3/h] @returns [l/min] */
export const lpmOfM3h = (m3h: number): number => (m3h * 1000) / 60;

/** A cubic foot in cubic metres [m3], from the foot of 0.3048 m. */
export const cubicFootM3 = 0.028316846592;
/** @param ft3 [ft3] @returns [m3] */
export const m3OfFt3 = (ft3: number): number => ft3 * cubicFootM3;

/** @param kwh [kWh] @returns [MJ] */
export const mjOfKwh = (kwh: number): number => kwh * 3.6;
/** @param mj [MJ] @returns [kWh] */
export const kwhOfMj = (mj: number): number => mj / 3.6;
