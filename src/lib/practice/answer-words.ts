import type { Answer, Asking } from '#shared/review/drills/drill.ts';
import { writtenSentence } from '$lib/ui/written';

/** A learner's answer as it is read back to them, a line for each thing chosen. */
export function answerWords(answer: Answer, asking: Asking): string[] {
	if ('written' in answer) return [answer.written];
	const says = (id: string) => ('choices' in asking ? asking.choices.find((choice) => choice.id === id)?.says : undefined) ?? id;
	return answer.chosen.map((id, index) => writtenSentence(asking.kind === 'order' ? `${index + 1}. ${says(id)}` : says(id)));
}
