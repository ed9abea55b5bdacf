/** The study as a page for docs/: what was assumed, the tables, and what they say, none of it written by hand. */
import { defaultScheduler } from '#shared/review/memory/schedule.ts';
import { skills } from './learner.ts';
import { estimate, retentions, type Cell, type PolicyRow, type StudySize } from './study.ts';
import { truths } from './truth.ts';

const truthNames: Record<Cell['truth'], string> = {
	fsrs: 'the scheduler’s own model',
	activation: 'activation',
	'half-life': 'half-life doubling'
};

export function asMarkdown(cells: readonly Cell[], size: StudySize, optimiser: boolean): string {
	return [
		'# Which schedule is best: a study on simulated learners',
		'',
		'Made by `npm run study -- --write`; nothing in it is written by hand, and the same seeds give it again. No person took part. It shows how',
		'schedules compare where memory works in one of three assumed ways; how memory works in those who practise here, it cannot show.',
		'',
		'The model itself, with the published parameters, is held to the ratios of a published simulation in `tests/published/simulated-schedules.test.ts`.',
		'',
		'## What it comes to',
		'',
		summary(cells),
		'',
		...assumptions(size, optimiser),
		'',
		...cells.flatMap((cell) => [...cellTable(cell), '']),
		'## Over all cells',
		'',
		...overall(cells),
		'',
		'## Cell by cell',
		'',
		...findings(cells),
		''
	].join('\n');
}

function assumptions({ learners, days, fitOn, cohort, budgets, seed }: StudySize, optimiser: boolean): string[] {
	const percent = retentions.map((retention) => `${Math.round(100 * retention)} %`).join(', ');
	return [
		'## Assumptions',
		'',
		`- ${learners} learners a cell, ${skills} skills (three in four callouts, the rest drills), ${days} evenings, seed ${seed}. The same learners and the same luck under every schedule.`,
		`- A budget of ${budgets.join(' or ')} minutes an evening. A callout takes 4.5 minutes, 6 when laboured, 8 when lost, since its debrief is read; a drill 1, 1.5, 2. These are invented. Minutes left over are left: nothing is brought forward.`,
		'- Due work first: by least foretold recall, or by what is longest overdue in proportion where nothing is foretold. At most two new skills an evening, and only when all that was due is done. Each skill once an evening. Six in ten first showings succeed; of successes a fifth are laboured, three fifths sound, a fifth fluent, whatever the memory: grades tell the scheduler nothing more than success does.',
		...truths.map(({ id, says }) => `- Truth “${truthNames[id]}”: ${says}.`),
		'- In each truth about seven in ten are recalled a week after the first showing. Their figures, with what is from memory and what is invented, stand in `tests/bench/study/truth.ts`.',
		`- “Published” is the scheduler under the published parameters; “fitted” the same, fitted on days ${fitOn.join(', ')} to the logs of ${cohort} learners, and then to each learner's own where that foretells their held-out reviews better, by the product's rules. The percentage is the desired recall (${percent}); the product begins with ${Math.round(100 * defaultScheduler.retention)} %.`,
		optimiser
			? '- All 21 parameters were fitted by the public optimiser (it was installed), the first four alone by our own search.'
			: '- The public optimiser was not installed: no more than the first four parameters were fitted, by our own search.',
		'- Known: the sum over all skills of the chance of success, before practice, mean over all days and learners, with half the width of its 95 % interval. Per minute: known for each minute a day that was really spent. After 30, after 180: known that many days after the last evening, without practice. Success on unseen skills is left out: none of the three models carries anything from one skill to another.',
		`- Log loss: of what was foretold from day ${fitOn[0]} on against what came of it; beside it, that of each learner's own average of before. It compares within a row, not between rows: each schedule asks at other times.`
	];
}

function cellTable({ truth, budget, rows, fit }: Cell): string[] {
	const figure = (value: number | null, digits: number) => (value === null ? '–' : value.toFixed(digits));
	const line = (row: PolicyRow) => [
		row.policy,
		`${row.known.mean.toFixed(1)} ± ${row.known.half.toFixed(1)}`,
		figure(row.minutesADay, 1),
		figure(row.knownPerMinute, 2),
		figure(row.after30, 1),
		figure(row.after180, 1),
		figure(row.begun, 0),
		figure(row.loss, 3),
		figure(row.averageLoss, 3)
	];
	const heads = ['schedule', 'known', 'minutes a day', 'per minute', 'after 30', 'after 180', 'begun', 'log loss', 'of averages'];
	return [
		`## Truth: ${truthNames[truth]}; ${budget} minutes`,
		'',
		`| ${heads.join(' | ')} |`,
		`| ${heads.map((_, i) => (i === 0 ? '---' : '--:')).join(' | ')} |`,
		...rows.map((row) => `| ${line(row).join(' | ')} |`),
		'',
		`Last common fit at the product's desired recall: ${fit.items} reviews, held-out log loss ${fit.before.toFixed(4)} before and ${fit.after.toFixed(4)} after, ${
			fit.chosen === 'fit' ? 'used' : 'not used'
		}; ${fit.own} learners had parameters of their own.`
	];
}

/** Where the product's own schedule stands, in the figures of the tables: said of each cell, none left out. */
function summary(cells: readonly Cell[]): string {
	const nameOf = ({ truth, budget }: Cell) => `${truthNames[truth]}, ${budget} minutes`;
	const row = ({ rows }: Cell, policy: string) => rows.find((one) => one.policy === policy)!;
	const meanShare = (policy: string) =>
		cells.reduce((sum, cell) => sum + row(cell, policy).known.mean / Math.max(...cell.rows.map(({ known }) => known.mean)), 0) /
		cells.length;
	const versus = (rival: string) => cells.map((cell) => ({ cell, says: comparison(row(cell, ownPolicy), row(cell, rival)) }));
	const percent = (share: number) => `${Math.round(100 * share)} %`;
	const count = (rival: string, is: (says: string) => boolean) => versus(rival).filter(({ says }) => is(says)).length;
	const behind = (rival: string) => {
		const lost = versus(rival).filter(({ says }) => says.startsWith('−'));
		return lost.length === 0
			? `“${rival}” knows more in no cell`
			: `“${rival}” knows more in ${lost.map(({ cell, says }) => `${nameOf(cell)} (by ${says.slice(1)})`).join('; ')}`;
	};
	const unbeaten = cells.flatMap((cell) =>
		cell.rows.filter(({ loss, averageLoss }) => loss !== null && loss >= averageLoss!).map(({ policy }) => `“${policy}” in ${nameOf(cell)}`)
	);
	const cellCount = cells.length;
	return [
		`Over the ${cellCount} cells “${ownPolicy}” knows on average ${percent(meanShare(ownPolicy))} of what the best schedule of the cell does, and “ladder” ${percent(meanShare('ladder'))}:`,
		`it knows more than the ladder in ${count('ladder', (says) => says.startsWith('+'))}, less in ${count('ladder', (says) => says.startsWith('−'))}, and is even in ${count('ladder', (says) => says === 'even')}.`,
		`${behind('every 30')}. ${behind('random')}.`,
		unbeaten.length === 0
			? 'Every forecast was better than the averages.'
			: `The log loss of the averages was not beaten by ${unbeaten.join('; ')}.`
	].join(' ');
}

/** Each schedule as a share of the best of its cell: one that is never far behind is worth more than one that is first where it is lucky. */
function overall(cells: readonly Cell[]): string[] {
	const policies = cells[0]!.rows.map(({ policy }) => policy);
	const shares = (policy: string, of: (row: PolicyRow) => number) =>
		cells.map(({ rows }) => of(rows.find((row) => row.policy === policy)!) / Math.max(...rows.map(of)));
	const inCells = (values: readonly number[]) => {
		const percent = (share: number) => `${Math.round(100 * share)} %`;
		return `${percent(values.reduce((sum, value) => sum + value, 0) / values.length)} (${percent(Math.min(...values))})`;
	};
	const known = (row: PolicyRow) => row.known.mean;
	return [
		'As a share of the best schedule of the same cell: the mean over cells, and the worst cell in brackets.',
		'',
		'| schedule | known | known per minute | after 30 days idle |',
		'| --- | --: | --: | --: |',
		...policies.map((policy) => {
			const columns = [known, (row: PolicyRow) => row.knownPerMinute, (row: PolicyRow) => row.after30];
			return `| ${policy} | ${columns.map((of) => inCells(shares(policy, of))).join(' | ')} |`;
		})
	];
}

/** For each cell what is best by each measure, whether the product's own schedule beats the others, and where foretelling fell short. */
function findings(cells: readonly Cell[]): string[] {
	return cells.flatMap((cell) => {
		const { truth, budget, rows } = cell;
		const best = (by: (row: PolicyRow) => number) => rows.reduce((top, row) => (by(row) > by(top) ? row : top));
		const own = rows.find(({ policy }) => policy === ownPolicy)!;
		const rivals = rows.filter(({ policy }) => !policy.startsWith('fitted'));
		const short = rows.filter(({ loss, averageLoss }) => loss !== null && loss >= averageLoss!);
		return [
			`- ${truthNames[truth]}, ${budget} minutes: most known “${best((row) => row.known.mean).policy}”, most for each minute “${best((row) => row.knownPerMinute).policy}”, most after 30 days idle “${best((row) => row.after30).policy}”. ` +
				`“${ownPolicy}” against the rest, in known: ${rivals.map((rival) => `${rival.policy} ${comparison(own, rival)}`).join(', ')}.` +
				(short.length > 0 ? ` Foretold no better than the averages: ${short.map(({ policy }) => policy).join('; ')}.` : '')
		];
	});
}

const ownPolicy = `fitted, ${Math.round(100 * defaultScheduler.retention)} %`;

/** The mean difference over the same learners, called even where its 95 % interval holds 0. */
function comparison(own: PolicyRow, rival: PolicyRow): string {
	const { mean, half } = estimate(own.knownOf.map((known, n) => known - rival.knownOf[n]!));
	return Math.abs(mean) <= half ? 'even' : `${mean > 0 ? '+' : '−'}${Math.abs(mean).toFixed(1)}`;
}
