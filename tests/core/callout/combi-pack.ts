/** The demo family's pack, read from `scenarios/`. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { models } from '#shared/appliance/families/index.ts';
import { makePacks } from '#shared/scenario/make-pack.ts';

const folder = 'scenarios';
const texts = readdirSync(folder, { recursive: true, encoding: 'utf8' })
	.filter((name) => name.endsWith('.yaml'))
	.map((name) => ({ name, text: readFileSync(join(folder, name), 'utf8') }));

export const { packs, problems } = makePacks(texts, models);
export const combiPack = packs.get('combi-plate-primary')!;
