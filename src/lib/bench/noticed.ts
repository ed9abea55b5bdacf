/** What was noticed without an instrument when the demand that stands was set. */
import type { CalloutView, ReadingLine } from '#shared/callout/view.ts';

/** In few words: `fan runs`, not `fan runs: runs`; `burner lit: lights and goes out`. */
export function noticedWords({ name, text }: Pick<ReadingLine, 'name' | 'text'>): string {
	const inSentence = name.charAt(0).toLowerCase() + name.slice(1);
	return inSentence.endsWith(` ${text}`) ? inSentence : `${inSentence}: ${text}`;
}

/** @returns the words, in order; none once the appliance was changed or run otherwise since */
export function noticedNow({ events, readings, demand }: Pick<CalloutView, 'events' | 'readings' | 'demand'>): string[] {
	const last = events.findLast(({ kind }) => kind === 'demand' || kind === 'prove' || kind === 'remedy');
	if (last?.kind !== 'demand') return [];
	return readings.filter((r) => r.noticed && r.event === last.index && r.demand === demand).map(noticedWords);
}
