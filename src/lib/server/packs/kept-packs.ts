import { models } from '#shared/appliance/families/index.ts';
import { packAgain } from '#shared/scenario/make-pack.ts';
import type { Pack } from '#shared/scenario/pack.ts';

const written = new WeakMap<Pack, string>();

/** A pack as JSON, without its model, which is code. Written once a pack. */
export function packToKeep(pack: Pack): string {
	let content = written.get(pack);
	if (content === undefined) {
		const { model, ...data } = pack;
		content = JSON.stringify(data);
		written.set(pack, content);
	}
	return content;
}

/**
 * The pack again from what `packToKeep` wrote in this very version, with the model of today.
 * @throws Error if the family's model is no longer part of the product
 */
export function packFrom(content: string): Pack {
	const data = JSON.parse(content) as Omit<Pack, 'model'>;
	const model = models[data.family.model];
	if (!model) throw new Error(`Pack ${data.hash} needs the family model "${data.family.model}", which this version does not have.`);
	return { ...data, model };
}

/**
 * The pack again from what any version wrote.
 * @param hash  the hash under which it was kept
 * @returns null where this version would make another pack of it: its shape, its model or its figures are no longer those
 */
export function packAsKept(content: string, hash: string): Pack | null {
	let kept: unknown;
	try {
		kept = JSON.parse(content);
	} catch {
		return null;
	}
	const pack = packAgain(kept, models);
	return pack?.hash === hash ? pack : null;
}
