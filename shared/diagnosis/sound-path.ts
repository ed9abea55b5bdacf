/**
 * The path that a sound engineer takes on a callout, from knowing what the engineer could know and no more: the best next action by
 * expected cost, each time, until the fault is proved, put right, checked, proved and explained.
 */
import { act, start } from '#shared/callout/act.ts';
import { checksDue } from '#shared/callout/disturbed.ts';
import type { Action, Sureness } from '#shared/callout/action.ts';
import type { Callout } from '#shared/callout/callout.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import { foundAdvice, scaldAdvice } from '#shared/scenario/safety.ts';
import { beliefAfter, standingOf } from './belief.ts';
import type { EvidenceTable, Suspicion } from './evidence.ts';
import { nextActions } from './next-action.ts';
import type { Valued } from './next-action.ts';
import { planCheck, planChecks, planDemand, planLeave, planProof } from './plan.ts';
import type { Plan } from './plan.ts';
import { isShown, surenessOf, wholeReadings } from './proof.ts';

export interface SoundPath {
	readonly actions: readonly Action[];
	/** The state that they lead to. */
	readonly state: CalloutState;
}

/** A path longer than this has lost its way; it then leaves as things stand. */
const mostRounds = 40;

const paths = new WeakMap<EvidenceTable, WeakMap<Callout, SoundPath>>();

/** The sound path of a callout. Worked out once for a table and a callout. */
export function soundPath(callout: Callout, table: EvidenceTable): SoundPath {
	let known = paths.get(table);
	if (!known) paths.set(table, (known = new WeakMap()));
	let path = known.get(callout);
	if (!path) known.set(callout, (path = walk(callout, table)));
	return path;
}

function walk(callout: Callout, table: EvidenceTable): SoundPath {
	const { pack } = callout;
	// What was complained of is seen before anything is thought of it.
	let state = follow(callout, table, start(), planDemand(pack, standingOf(callout, start()), callout.complaint.proves.demand), null);
	for (let round = 0; state.ended === null; round++) {
		const belief = beliefAfter(callout, state, table, state.events.length);
		const standing = standingOf(callout, state);
		if (standing.proof === 'due') state = follow(callout, table, state, checkedAndProved(callout, state), belief);
		else if (standing.proof === 'gone' || round >= mostRounds)
			state = follow(callout, table, state, leaving(callout, state, belief), belief);
		else {
			const best = nextActions(pack, table, belief, standing).find(isForward);
			const plan = best ? best.plan : leaving(callout, state, belief);
			state = follow(callout, table, state, plan && seenFirst(callout, state, plan), belief);
		}
	}
	return { actions: state.events.map((event) => event.action), state };
}

const isForward = ({ choice }: Valued) => choice.kind !== 'leave' && choice.kind !== 'prove';

/** Does what a plan says, naming for each remedy how sure the belief is of it. @throws Error if the callout refuses, which is a fault in the plan */
function follow(callout: Callout, table: EvidenceTable, state: CalloutState, plan: Plan | null, belief: Suspicion | null): CalloutState {
	if (!plan) throw new Error('no way leads on from here');
	return plan.actions.reduce((here, planned) => {
		const action =
			planned.kind === 'remedy' && belief ? { ...planned, sure: sureOf(callout.pack, table, belief, here, planned.remedy) } : planned;
		const next = act(callout, here, action);
		if ('refused' in next) throw new Error(`the sound path was refused "${JSON.stringify(action)}": ${next.refused}`);
		return next;
	}, state);
}

function sureOf(pack: Pack, table: EvidenceTable, belief: Suspicion, { readings }: CalloutState, remedy: string): Sureness {
	const index = pack.remedies.findIndex((r) => r.id === remedy);
	return surenessOf(pack, belief.remedies[index], isShown(pack, table, belief.faults, wholeReadings(readings), remedy));
}

/** What was opened is looked over before the electricity is back, where that can be; what to do next is then thought of again. */
function seenFirst(callout: Callout, state: CalloutState, plan: Plan): Plan {
	const { pack } = callout;
	if (!makesLive(pack, plan)) return plan;
	const due = checksDue(pack, state);
	const dead = pack.checks.filter((check) => {
		const ways = check.under.flatMap((demand) => planCheck(pack, state, check, demand) ?? []);
		return due.includes(check.id) && ways.some((way) => !makesLive(pack, way));
	});
	return dead.length > 0 ? planChecks(pack, state, dead) : plan;
}

const makesLive = (pack: Pack, plan: Plan): boolean =>
	plan.actions.some(
		(action) => action.kind === 'step' && pack.rules.steps.some(({ id, sets }) => id === action.step && sets.includes('electricity-on'))
	);

function checkedAndProved(callout: Callout, state: CalloutState): Plan | null {
	const { pack, complaint } = callout;
	const due = checksDue(pack, state);
	const checked = planChecks(
		pack,
		state,
		pack.checks.filter(({ id }) => due.includes(id))
	);
	const proof = planProof(pack, checked.after, complaint);
	return proof && { ...proof, actions: [...checked.actions, ...proof.actions] };
}

/** Tells the customer what was found, what deals with the cause behind the likeliest fault, and of scalding water. */
function leaving(callout: Callout, state: CalloutState, belief: Suspicion): Plan | null {
	const { pack } = callout;
	const likeliest = belief.faults.indexOf(Math.max(...belief.faults));
	const told = new Set([foundAdvice, ...pack.faults[likeliest].advise, scaldAdvice]);
	return planLeave(
		pack,
		state,
		[...told].filter((id) => pack.advice.some((advice) => advice.id === id))
	);
}
