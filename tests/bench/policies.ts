/** Three ways of working over the same callouts: guess and swap, a fixed script, the best next check. What the product exists to show. */
import { act, start } from '#shared/callout/act.ts';
import type { Callout } from '#shared/callout/callout.ts';
import { makeCallout } from '#shared/callout/make.ts';
import type { CalloutState } from '#shared/callout/state.ts';
import { beliefAfter, standingOf } from '#shared/diagnosis/belief.ts';
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import { planAfterChecks, planCheck, planLeave, planProof, planRemedy } from '#shared/diagnosis/plan.ts';
import type { Plan } from '#shared/diagnosis/plan.ts';
import { soundPath } from '#shared/diagnosis/sound-path.ts';
import { mark } from '#shared/marking/mark.ts';
import type { Demand } from '#shared/appliance/model.ts';
import type { Pack } from '#shared/scenario/pack.ts';

export interface PolicyResult {
	readonly policy: string;
	readonly callouts: number;
	readonly curedShare: number;
	readonly soundParts: number;
	readonly minutes: number;
	readonly spent: number;
	readonly checks: number;
	readonly marks: number;
}

const mostRemedies = 12;

function follow(callout: Callout, state: CalloutState, plan: Plan | null): CalloutState {
	return (plan?.actions ?? []).reduce((here, action) => {
		const next = act(callout, here, action);
		return 'refused' in next ? here : next;
	}, state);
}

/** Tries the likeliest remedy again and again, each with its proof. */
function swapTheLikeliest(callout: Callout, table: EvidenceTable, from: CalloutState): CalloutState {
	const { pack } = callout;
	let state = from;
	for (let tried = 0; tried < mostRemedies && !state.cured && state.ended === null; tried++) {
		const belief = beliefAfter(callout, state, table, state.events.length);
		const { done } = standingOf(callout, state);
		const open = pack.remedies.map((remedy, i) => ({ remedy, p: belief.remedies[i] })).filter(({ remedy }) => !done.includes(remedy.id));
		const { remedy } = open.reduce((best, each) => (each.p > best.p ? each : best));
		state = follow(callout, state, planRemedy(pack, state, remedy));
		state = follow(callout, state, planAfterChecks(pack, state, remedy.disturbs));
		state = follow(callout, state, planProof(pack, state, callout.complaint));
	}
	const told = ['advise-found', 'advise-scald'].filter((id) => pack.advice.some((advice) => advice.id === id));
	return follow(callout, state, planLeave(pack, state, told));
}

/** The same ten checks on every visit, as a card in the van might have them. Those a pack has not are passed over. */
const script: readonly (readonly [string, Demand])[] = [
	['measure-tap-temperature', 'tap'],
	['measure-tap-flow', 'tap'],
	['read-pressure', 'none'],
	['look-turbine-indicator', 'tap'],
	['feel-heating-pipe', 'tap'],
	['read-display-flow', 'tap'],
	['read-display-return', 'tap'],
	['measure-gas-rate', 'tap'],
	['measure-gas-working', 'tap'],
	['measure-co-ratio', 'tap']
];

function byScript(callout: Callout, table: EvidenceTable): CalloutState {
	const { pack } = callout;
	const state = script.reduce((here, [id, demand]) => {
		const check = pack.checks.find((c) => c.id === id);
		return check ? follow(callout, here, planCheck(pack, here, check, demand)) : here;
	}, start());
	return swapTheLikeliest(callout, table, state);
}

export function comparePolicies(pack: Pack, table: EvidenceTable, count: number, firstSeed: number): PolicyResult[] {
	const callouts = Array.from({ length: count }, (_, n) => makeCallout(pack, firstSeed + n));
	const policies: [string, (callout: Callout) => CalloutState][] = [
		['guess the likeliest and swap', (callout) => swapTheLikeliest(callout, table, start())],
		['a fixed script of ten checks, then swap', (callout) => byScript(callout, table)],
		['best next action by expected cost', (callout) => soundPath(callout, table).state]
	];
	return policies.map(([policy, walk]) => {
		const states = callouts.map(walk);
		const mean = (value: (state: CalloutState, index: number) => number) =>
			states.reduce((sum, state, index) => sum + value(state, index), 0) / count;
		return {
			policy,
			callouts: count,
			curedShare: mean((state) => Number(state.cured)),
			soundParts: mean((state) => state.remedies.filter((done) => !done.cured && done.remedy.startsWith('fit-')).length),
			minutes: mean((state) => state.minutes),
			spent: mean((state) => state.spent),
			checks: mean((state) => state.events.filter((event) => event.action.kind === 'check').length),
			marks: mean((state, index) => mark(callouts[index], state, table).total)
		};
	});
}

export function printPolicies(results: readonly PolicyResult[]): void {
	const heads = ['cured', 'sound parts', 'minutes', 'spent', 'checks', 'marks'];
	console.log(`${`policy, over ${results[0].callouts} callouts (means)`.padEnd(52)}${heads.map((head) => head.padStart(12)).join('')}`);
	for (const r of results) {
		const cells = [
			`${(100 * r.curedShare).toFixed(0)} %`,
			r.soundParts.toFixed(2),
			r.minutes.toFixed(0),
			r.spent.toFixed(0),
			r.checks.toFixed(1),
			r.marks.toFixed(0)
		];
		console.log(`${r.policy.padEnd(52)}${cells.map((cell) => cell.padStart(12)).join('')}`);
	}
}
