/** The one figure that all sums of warmed water share. */
import { heatPerLitreK } from '#shared/physics/water.ts';
import type { GivenFigure } from './sum.ts';

/** Heat that warms a litre by a kelvin, as it is used on paper [kJ/(l K)]: that of water at 15 degC to two decimals. */
export const kjPerLitreK = Math.round(heatPerLitreK(15) * 100) / 100;

export const litreHeat: GivenFigure = { name: 'To warm a litre by 1 K', unit: 'kJ', step: 0.01 };
