/** All trade sums, and as drills. */
import { burningSums } from './burning.ts';
import { expansionSums } from './expansion.ts';
import { flueSums } from './flue.ts';
import { gasPressureSums } from './gas-pressure.ts';
import { gasRateSums } from './gas-rate.ts';
import { loadSums } from './loads.ts';
import { pressureAndFlowSums } from './pressure-and-flow.ts';
import { sensorSums } from './sensors.ts';
import { storedWaterSums } from './stored-water.ts';
import { sumGenerator } from './sum-generator.ts';
import { tapWaterSums } from './tap-water.ts';
import type { Sum } from './sum.ts';
import type { Generator } from '../drill.ts';

export const sums: readonly Sum[] = [
	...gasRateSums,
	...gasPressureSums,
	...tapWaterSums,
	...storedWaterSums,
	...pressureAndFlowSums,
	...expansionSums,
	...burningSums,
	...flueSums,
	...sensorSums,
	...loadSums
];

export const sumGenerators: readonly Generator[] = sums.map(sumGenerator);
