/** What the cross-checkers share: the sources, a way to report, and the few tests that each of them makes. */
import type { ApplianceModel } from '#shared/appliance/model.ts';
import type { Vocabulary } from './in-common.ts';
import type { Remedy } from './pack.ts';
import type { Sources } from './read.ts';
import { openingSite } from './site.ts';
import type { SiteState } from './schema.ts';
import type { Key, Sheet } from './sheet.ts';

export interface Crossing {
	readonly sources: Sources;
	readonly model: ApplianceModel;
	readonly remedies: readonly Remedy[];
	/** What any model in stock knows, for the files that families share. */
	readonly known: Vocabulary;
	/** Quantities that a check may name. */
	readonly quantities: ReadonlySet<string>;
	readonly places: ReadonlySet<string>;
	readonly checkIds: ReadonlySet<string>;
	report(sheet: Sheet<unknown>, path: readonly Key[], says: string): void;
	/** Reports `name` unless it is among `known`. */
	mustBe(sheet: Sheet<unknown>, path: readonly Key[], what: string, known: ReadonlySet<string>, name: string): void;
}

export function idsOf(items: readonly { readonly id: string }[]): ReadonlySet<string> {
	return new Set(items.map((item) => item.id));
}

/** Reports ids that occur twice in a list. */
export function mustBeUnique(
	{ report }: Crossing,
	sheet: Sheet<unknown>,
	items: readonly { readonly id: string }[],
	at: readonly Key[] = []
): void {
	const seen = new Set<string>();
	items.forEach(({ id }, index) => {
		if (seen.has(id)) report(sheet, [...at, index, 'id'], `the id "${id}" is already taken in this file`);
		seen.add(id);
	});
}

/** States that hold on arrival or that some step brings about. */
export function reachableStates({ sources }: Crossing): ReadonlySet<SiteState> {
	return new Set([...openingSite, ...sources.rules.value.steps.flatMap((step) => step.sets)]);
}
