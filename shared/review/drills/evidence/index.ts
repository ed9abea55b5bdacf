/** Drills made from a family's data and its evidence. */
import type { Generator } from '../drill.ts';
import { nextAfterReadings, nextAtStart } from './next-check/next-check.ts';
import { whichProved } from './next-check/proved.ts';
import { judgeFelt } from './reading/judge-felt.ts';
import { judgeMeasured } from './reading/judge-measured.ts';
import { twoDemands } from './reading/two-demands.ts';
import { ruledOutByOne } from './ruled-out/by-one.ts';
import { ruledOutTogether, stillIn } from './ruled-out/together.ts';
import { nextStep } from './sequence/next-step.ts';
import { sequenceOrder } from './sequence/order.ts';
import { stoppedAt } from './sequence/stopped.ts';
import { isolateBefore } from './terminals/isolate-before.ts';
import { rangeForCheck } from './terminals/range-for-check.ts';
import { terminalsForCheck } from './terminals/terminals-for-check.ts';
import { toolForCheck } from './terminals/tool-for-check.ts';

export const evidenceGenerators: readonly Generator[] = [
	judgeMeasured,
	judgeFelt,
	twoDemands,
	nextAtStart,
	nextAfterReadings,
	whichProved,
	ruledOutByOne,
	ruledOutTogether,
	stillIn,
	sequenceOrder,
	nextStep,
	stoppedAt,
	terminalsForCheck,
	rangeForCheck,
	toolForCheck,
	isolateBefore
];
