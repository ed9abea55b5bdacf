/** The verbs of the command line, in the order of the help. */
import type { Verb } from '../verb.ts';
import { audit } from './audit.ts';
import { best } from './best.ts';
import { callout } from './callout.ts';
import { clearDemoVerb } from './clear-demo.ts';
import { fit } from './fit.ts';
import { lint } from './lint.ts';
import { checks, families, faults, parts } from './lists.ts';
import { readings } from './readings.ts';
import { replay } from './replay.ts';
import { suspicion } from './suspicion.ts';
import { trace } from './trace.ts';

export const verbs: readonly Verb[] = [
	families,
	faults,
	checks,
	parts,
	readings,
	trace,
	callout,
	replay,
	suspicion,
	best,
	lint,
	fit,
	audit,
	clearDemoVerb
];
