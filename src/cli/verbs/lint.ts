/** Whether the data holds together and every fault can be told from every other. */
import { separable, type Inseparable } from '#shared/diagnosis/separable.ts';
import { evidenceFor } from '../../lib/server/evidence/evidence.ts';
import { table } from '../table.ts';
import type { Verb } from '../verb.ts';

interface Line {
	readonly family: string;
	readonly packHash: string;
	readonly faults: number;
	readonly checks: number;
	readonly inseparable: readonly Inseparable[];
}

interface Result {
	readonly ok: boolean;
	/** Files that do not hold together are told before any verb runs; a pack here has none. */
	readonly families: readonly Line[];
}

export const lint: Verb = {
	name: 'lint',
	says: 'Holds the data together and names each pair of faults that no check offered tells apart.',
	options: {},
	async run(_given, packs): Promise<Result> {
		const families: Line[] = [];
		for (const pack of packs.values()) {
			const inseparable = separable(pack, await evidenceFor(pack));
			families.push({ family: pack.family.id, packHash: pack.hash, faults: pack.faults.length, checks: pack.checks.length, inseparable });
		}
		return { ok: families.every((line) => line.inseparable.length === 0), families };
	},
	show: ({ families }: Result) =>
		families
			.map(({ family, faults, checks, inseparable }) => {
				const head = `${family}: ${faults} faults, ${checks} checks; every name leads somewhere.`;
				if (inseparable.length === 0) return `${head} Every fault can be told from every other, or shares its remedy.`;
				return `${head}\n\n${table(
					['fault', 'from', 'best told by', 'overlap'],
					inseparable.map(({ a, b, by, overlap }) => [a, b, by, overlap])
				)}`;
			})
			.join('\n\n'),
	code: ({ ok }: Result) => (ok ? 0 : 1)
};
