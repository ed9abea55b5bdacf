import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { sums } from '#shared/review/drills/sums/index.ts';

it("every drill's sum is held against a published or practice example", () => {
	const folder = fileURLToPath(new URL('./', import.meta.url));
	const files = readdirSync(folder).filter((name) => name.startsWith('drill-sums-'));
	const text = files.map((name) => readFileSync(folder + name, 'utf8')).join('\n');
	expect(sums.filter(({ id }) => !text.includes(`solved('${id}'`)).map(({ id }) => id)).toEqual([]);
});
