/** The trade core from a terminal: `npm run -s cli -- VERB [options] [--json]`. */
import { readPacks } from '../lib/server/packs/read-scenarios.ts';
import { run } from './run.ts';

process.exitCode = await run(process.argv.slice(2), () => readPacks(), {
	out: (text) => process.stdout.write(text),
	err: (text) => process.stderr.write(text)
});
