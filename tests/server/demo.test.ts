import { expect, it } from 'vitest';
import { attemptsIn } from '$lib/server/database/attempts.ts';
import { inventedLearner } from '$lib/server/callouts/invented-learner.ts';
import { seedDemo } from '$lib/server/demo/demo.ts';
import { curriculum } from '$lib/server/packs/curriculum.ts';
import { packs } from '$lib/server/packs/packs.ts';
import { freshService } from './fresh.ts';

it('plays the invented visits once, each to its end, and shows their debriefs to anyone as invented', async () => {
	const { db, callouts, learnerId } = freshService();
	const parts = { db, callouts, known: packs(), curriculum: curriculum() };
	seedDemo(parts, 'visits');
	seedDemo(parts, 'visits');
	const visits = attemptsIn(db).latest(inventedLearner(db)!, 100);
	expect(visits).toHaveLength(3 * packs().size);
	for (const { id, ended } of visits) {
		expect(ended).not.toBeNull();
		expect(callouts.load(id, learnerId)).toBeNull();
		expect(callouts.act(id, learnerId, { kind: 'prove' }, 0)).toEqual({ outcome: 'missing' });
		const seen = await callouts.debrief(id, null);
		if (seen.outcome !== 'debriefed') throw new Error(seen.outcome);
		expect(seen.invented).toBe(true);
		expect(seen.callout.view.ended).toBe('left');
	}
});

it('shows the debrief of a learner who was not invented to that learner only', async () => {
	const { callouts, learnerId } = freshService();
	const started = callouts.start(learnerId, { family: [...packs().keys()][0]!, seed: 5 });
	if (started.outcome !== 'started') throw new Error(started.says);
	callouts.act(started.attemptId, learnerId, { kind: 'leave', told: [] }, 0);
	expect((await callouts.debrief(started.attemptId, learnerId)).outcome).toBe('debriefed');
	expect(await callouts.debrief(started.attemptId, null)).toEqual({ outcome: 'missing' });
});
