/** What can be done next, as a plan is made for it. */
import type { Demand } from '#shared/appliance/model.ts';

export type Choice =
	| { readonly kind: 'check'; readonly check: string; readonly demand: Demand }
	| { readonly kind: 'demand'; readonly demand: Demand }
	| { readonly kind: 'remedy'; readonly remedy: string }
	| { readonly kind: 'prove' }
	| { readonly kind: 'leave' };

/** Tells actions apart. */
export function choiceKey(choice: Choice): string {
	switch (choice.kind) {
		case 'check':
			return `check ${choice.check} ${choice.demand}`;
		case 'demand':
			return `demand ${choice.demand}`;
		case 'remedy':
			return `remedy ${choice.remedy}`;
		default:
			return choice.kind;
	}
}
