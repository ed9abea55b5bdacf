import { outOf, type ItemResult } from '#shared/assessment/result.ts';

/** Marks that a result is worth before moderation. */
export function worth(result: ItemResult): { readonly got: number; readonly outOf: number } {
	switch (result.kind) {
		case 'callout':
			return { got: result.sheet.total, outOf: result.sheet.outOf };
		case 'drill':
			return { got: result.right ? outOf.drill : 0, outOf: outOf.drill };
		case 'untried':
			return { got: 0, outOf: outOf[result.of] };
	}
}
