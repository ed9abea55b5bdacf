import type { Answer, Asking } from '#shared/review/drills/drill.ts';

/** A learner's answer as it is read back to them, a line for each thing chosen. */
export function answerWords(answer: Answer, asking: Asking): string[] {
	if ('written' in answer) return [answer.written];
	const says = (id: string) => ('choices' in asking ? asking.choices.find((choice) => choice.id === id)?.says : undefined) ?? id;
	if (answer.chosen.length === 0) return ['None of them'];
	return answer.chosen.map((id, index) => (asking.kind === 'order' ? `${index + 1}. ${says(id)}` : says(id)));
}

/** The right answer, a line for each thing in it: an order as it is numbered. */
export function rightLines(answer: string, { kind }: Asking): string[] {
	return kind === 'order' ? answer.split(/ (?=\d+\. )/) : [answer];
}
