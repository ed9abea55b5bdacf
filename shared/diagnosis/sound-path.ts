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
import { nextActions, planLook } from './next-action.ts';
import type { Standing, Valued } from './next-action.ts';
import { planChecks, planDemand, planLeave, planProof } from './plan.ts';
import type { Plan } from './plan.ts';
import { checksRead, isShown, surenessOf } from './proof.ts';

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
	let state = follow(callout, start(), planDemand(pack, standingOf(callout, start()), callout.complaint.proves.demand), null);
	for (let round = 0; state.ended === null; round++) {
		const belief = beliefAfter(callout, state, table, state.events.length);
		const standing = standingOf(callout, state);
		if (standing.proof === 'due') state = follow(callout, state, checkedAndProved(callout, state), belief);
		else if (standing.proof === 'gone' || round >= mostRounds) state = follow(callout, state, leaving(callout, state, belief), belief);
		else {
			const best = nextActions(pack, table, belief, standing).find(isForward);
			state = follow(callout, state, best ? withItsLook(pack, standing, belief, best) : leaving(callout, state, belief), belief);
		}
	}
	return { actions: state.events.map((event) => event.action), state };
}

const isForward = ({ choice }: Valued) => choice.kind !== 'leave' && choice.kind !== 'prove';

/** Does what a plan says, naming for each remedy how sure the belief is of it. @throws Error if the callout refuses, which is a fault in the plan */
function follow(callout: Callout, state: CalloutState, plan: Plan | null, belief: Suspicion | null): CalloutState {
	if (!plan) throw new Error('no way leads on from here');
	return plan.actions.reduce((here, planned) => {
		const action = planned.kind === 'remedy' && belief ? { ...planned, sure: sureOf(callout.pack, belief, here, planned.remedy) } : planned;
		const next = act(callout, here, action);
		if ('refused' in next) throw new Error(`the sound path was refused "${JSON.stringify(action)}": ${next.refused}`);
		return next;
	}, state);
}

function sureOf(pack: Pack, belief: Suspicion, { readings }: CalloutState, remedy: string): Sureness {
	const index = pack.remedies.findIndex((r) => r.id === remedy);
	return surenessOf(pack, belief.remedies[index], isShown(pack, belief.faults, checksRead(readings), remedy));
}

/** The best action, or the look that it owes first. */
function withItsLook(pack: Pack, standing: Standing, belief: Suspicion, { choice, plan }: Valued): Plan {
	if (choice.kind !== 'remedy' || isShown(pack, belief.faults, standing.read, choice.remedy)) return plan;
	return planLook(pack, standing, belief, choice.remedy) ?? plan;
}

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
