/** An invented training centre. Its people, cohorts and paper are nobody's and nowhere's. */
import type { Blueprint } from '#shared/assessment/blueprint.ts';
import type { PassRule } from '#shared/assessment/pass-rule.ts';
import type { Area } from '#shared/scenario/areas.ts';

export interface InventedCohort {
	readonly name: string;
	/** Names on its register. */
	readonly names: readonly string[];
	/** For how many weeks they have practised. */
	readonly weeks: number;
	/** Areas in which the cohort succeeds less often. */
	readonly weak: readonly Area[];
}

export const inventedCohorts: readonly InventedCohort[] = [
	{
		name: 'Millbrook evening course (invented)',
		names: [
			'Asha Pennyfield',
			'Ben Larkmoor',
			'Cerys Wendle',
			'Daniel Oxtoby-Vane',
			'Efua Marstone',
			'Finn Garrowby',
			'Grace Tillingfold',
			'Hamid Ravenshaw',
			'Isla Cottermouth',
			'Jon Quarrendon',
			'Katya Brindlesham',
			'Liam Thornaby-Moss'
		],
		weeks: 16,
		weak: ['gas', 'air']
	},
	{
		name: 'Millbrook day release (invented)',
		names: [
			'Maeve Stillwater',
			'Nadeem Holloway-Fen',
			'Orla Peverstone',
			'Piotr Dunmarrow',
			'Queenie Ashdale',
			'Rhys Calderbeck',
			'Sunita Fairlorne',
			'Tom Wetherlam'
		],
		weeks: 7,
		weak: ['diverting', 'electrical']
	}
];

/** Who keeps the first cohort. */
export const inventedAssessors = ['Ines Vallory', 'Col Harrowgate'] as const;

/** The paper that the first cohort has sat. Every family counts on its own, so that it can be set whatever is in stock. */
export const inventedPaper = {
	title: 'End of term (invented)',
	minutes: 40,
	passRule: { mark: 55, noDanger: true, cured: 1 } satisfies PassRule,
	variants: 2,
	blueprintOf: (family: string): Blueprint => ({
		lines: [
			{ kind: 'callout', family, area: null, count: 2 },
			{ kind: 'drill', drill: 'water-sums', count: 2 },
			{ kind: 'drill', drill: 'heat-sums', count: 1 }
		]
	})
} as const;
