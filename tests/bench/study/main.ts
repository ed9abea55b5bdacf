/**
 * Which schedule is best, on simulated learners (see study.ts).
 *
 *   npm run study                      prints the tables, after some two minutes
 *   npm run study -- --write           writes them to docs/schedule-study.md as well
 *   npm run study -- --learners 20     a quick look
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { optimiserIn } from '../../../src/lib/server/fitting/optimiser.ts';
import { asMarkdown } from './report.ts';
import { fullSize, runStudy } from './study.ts';

const { values: options } = parseArgs({
	options: { learners: { type: 'string', default: String(fullSize.learners) }, write: { type: 'boolean', default: false } }
});
const size = { ...fullSize, learners: Number(options.learners) };
const optimiser = await optimiserIn();
const report = asMarkdown(await runStudy(size, optimiser), size, optimiser !== null);
console.log(report);
if (options.write) writeFileSync('docs/schedule-study.md', report);
