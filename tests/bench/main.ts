/**
 * Figures measured on this machine, printed and never asserted.
 *
 *   npm run bench                      all of it
 *   npm run bench -- --callouts 500    over so many callouts in the comparison of policies
 *   npm run bench -- --learners 20     over so many simulated learners in the comparison of schedules
 *   npm run bench -- --write FILE      the figures also as JSON
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { act, start } from '#shared/callout/act.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { sampleMachine } from '#shared/callout/sample-machine.ts';
import { beliefAfter, standingOf } from '#shared/diagnosis/belief.ts';
import { nextActions } from '#shared/diagnosis/next-action.ts';
import { planCheck } from '#shared/diagnosis/plan.ts';
import { decodeEvidence, encodeEvidence } from '#shared/diagnosis/store.ts';
import { optimiserIn } from '../../src/lib/server/fitting/optimiser.ts';
import { fits } from './fits.ts';
import { arithmetic, printTimes, spreadOf, timed } from './measure.ts';
import type { Timed } from './measure.ts';
import { comparePolicies, printPolicies } from './policies.ts';
import { asMarkdown } from './study/report.ts';
import { fullSize, runStudy } from './study/study.ts';

const { values: options } = parseArgs({
	options: { callouts: { type: 'string', default: '200' }, learners: { type: 'string', default: '200' }, write: { type: 'string' } }
});

// A data folder of its own: the table is then really made, and no learner's database is written to.
const folder = mkdtempSync(join(tmpdir(), 'provewell-bench-'));
process.env.PROVEWELL_DATA = folder;

try {
	const { packs } = await import('../../src/lib/server/packs/packs.ts');
	const { evidenceFor } = await import('../../src/lib/server/evidence/evidence.ts');
	const pack = [...packs().values()][0];
	const baseline = timed('a million square roots (the baseline)', 30, arithmetic);
	const times: Timed[] = [baseline];

	const machines = Array.from({ length: 200 }, (_, home) => sampleMachine(pack, 1, { home }).faulty);
	times.push(timed('one trace, tap open, 240 s', 200, (run) => pack.model.trace(machines[run], 'tap', 240)));
	times.push(timed('one settled run, tap open', 200, (run) => pack.model.settle(machines[run], 'tap')));

	const from = performance.now();
	const table = await evidenceFor(pack);
	times.push(spreadOf(`evidence table, ${table.rows} machines, ${table.columns.length} columns`, [performance.now() - from]));
	const bytes = encodeEvidence(table);
	times.push(timed('evidence table read from bytes', 10, () => decodeEvidence(bytes, pack.hash)));

	const tapTemperature = pack.checks.find((check) => check.words === undefined && check.under.includes('tap') && check.needs.length === 0)!;
	const begun = Array.from({ length: 60 }, (_, n) => {
		const callout = makeCallout(pack, 500 + n);
		const plan = planCheck(pack, start(), tapTemperature, 'tap')!;
		const state = plan.actions.reduce((here, action) => {
			const next = act(callout, here, action);
			return 'refused' in next ? here : next;
		}, start());
		return { callout, state };
	});
	times.push(
		timed('suspicion and best next action, a tap run and a check', begun.length, (run) => {
			const { callout, state } = begun[run];
			// Readings as if just taken, so that nothing is remembered of them.
			const fresh = { ...state, readings: state.readings.map((reading) => ({ ...reading })) };
			return nextActions(pack, table, beliefAfter(callout, fresh, table, fresh.events.length), standingOf(callout, fresh));
		})
	);
	times.push(...(await onTheServer(pack.family.id)), ...(await fits()));
	printTimes(times, baseline);

	console.log('');
	const policies = comparePolicies(pack, table, Number(options.callouts), 900_000);
	printPolicies(policies);

	const size = { ...fullSize, learners: Number(options.learners) };
	const optimiser = await optimiserIn();
	const study = await runStudy(size, optimiser);
	console.log(`\n${asMarkdown(study, size, optimiser !== null)}`);
	if (options.write) writeFileSync(options.write, `${JSON.stringify({ packHash: pack.hash, times, policies, study }, null, '\t')}\n`);
} finally {
	const { closeDatabase } = await import('../../src/lib/server/database/open.ts');
	closeDatabase();
	rmSync(folder, { recursive: true, force: true });
}

/** From the click on a check to its stored reading, in the service, on a database of its own. */
async function onTheServer(family: string): Promise<Timed[]> {
	const { calloutsIn } = await import('../../src/lib/server/callouts/callouts.ts');
	const { addLearner } = await import('../../src/lib/server/accounts/index.ts');
	const { database } = await import('../../src/lib/server/database/open.ts');
	const { packs } = await import('../../src/lib/server/packs/packs.ts');
	const service = calloutsIn(database(), packs());
	const learner = addLearner({ guest: true, invented: false }).id;
	const clicks: number[] = [];
	for (let n = 0; n < 60; n++) {
		const started = service.start(learner, { family, seed: 40_000 + n });
		if (started.outcome !== 'started') throw new Error('no callout was started');
		const { attemptId } = started;
		service.act(attemptId, learner, { kind: 'demand', demand: 'tap' }, 0);
		const check = service.load(attemptId, learner)!.view.checks.find((offer) => offer.unmet.length === 0)!;
		const before = performance.now();
		const acted = service.act(attemptId, learner, { kind: 'check', check: check.id }, 1);
		if (acted.outcome !== 'done') throw new Error(`the check was ${acted.outcome}`);
		if (n > 0) clicks.push(performance.now() - before);
	}
	return [spreadOf('a check on the server, from click to reading', clicks)];
}
