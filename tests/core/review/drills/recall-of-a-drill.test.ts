import { expect, it } from 'vitest';
import { recallOf } from '#shared/review/drills/pace.ts';

const pace = { quickSeconds: 40, slowSeconds: 160 };

it.each([
	['right', 0, 'fluent'],
	['right', 40, 'fluent'],
	['right', 41, 'sound'],
	['right', 160, 'sound'],
	['right', 161, 'laboured'],
	['nearly', 1, 'laboured'],
	['nearly', 900, 'laboured'],
	['wrong', 1, 'lost'],
	['wrong', 900, 'lost']
] as const)('%s after %d s is %s', (outcome, seconds, recall) => expect(recallOf(outcome, seconds, pace)).toBe(recall));
