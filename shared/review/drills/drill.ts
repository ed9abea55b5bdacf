/** What a drill is: a question made from a generator, a family where it concerns one, and a seed; an answer; what is said of it. */
import type { EvidenceTable } from '#shared/diagnosis/evidence.ts';
import type { Recall } from '#shared/marking/recall.ts';
import type { Pack } from '#shared/scenario/pack.ts';

/** A line of what is known, to be read beside the question: `Rise of the tap water`, `31.5 K`. */
export interface Given {
	readonly name: string;
	readonly value: string;
}

export interface Choice {
	readonly id: string;
	readonly says: string;
}

/** How the answer is given. */
export type Asking =
	/** One of several. */
	| { readonly kind: 'one'; readonly choices: readonly Choice[] }
	/** Any of several; that it is none of them is a choice of its own. */
	| { readonly kind: 'several'; readonly choices: readonly Choice[] }
	/** All of them, put in order. */
	| { readonly kind: 'order'; readonly choices: readonly Choice[] }
	/** A figure. Any of the units may be written after it; without one it is taken in the first. */
	| { readonly kind: 'figure'; readonly units: readonly string[] };

/** What a learner is shown; nothing in it tells the answer. */
export interface Question {
	/** The kind of drill, which is the skill that it shows. */
	readonly drill: string;
	readonly family: string | null;
	readonly asks: string;
	readonly given: readonly Given[];
	readonly asking: Asking;
}

/** As it comes from a form: ids chosen, in order where that is asked, or what was written. */
export type Answer = { readonly chosen: readonly string[] } | { readonly written: string };

/** What is said of an answer. */
export interface Judged {
	readonly right: boolean;
	/** Lost when wrong; laboured when nearly right, or right in need of more time than is usual; sound or fluent otherwise. */
	readonly recall: Recall;
	/** The right answer, in words or figures, a line for each thing in it. */
	readonly answer: readonly string[];
	/** How one comes to it, a step a line. */
	readonly worked: readonly string[];
	/** What this very answer points to, where it is one that a particular misconception gives. */
	readonly misconception: string | null;
}

export interface Drill {
	readonly question: Question;
	/**
	 * @param seconds between question and answer
	 * @returns what is said of it, or why it cannot be taken as an answer (nothing is then stored and it may be answered again)
	 */
	judge(answer: Answer, seconds: number): Judged | { readonly refused: string };
}

/** What a generator may draw on. */
export interface Ground {
	/** The family's pack; null for a drill that concerns none. */
	readonly pack: Pack | null;
	/** The family's evidence table; null where it is not made yet. */
	readonly table: EvidenceTable | null;
}

export interface Generator {
	/** Never reused. */
	readonly id: string;
	/** The kind of drill that it belongs to. */
	readonly drill: string;
	readonly needs: 'nothing' | 'family' | 'evidence';
	/**
	 * Whether there is anything in this ground to ask about: a family may have no terminals, or too short a sequence. Left out: always. It
	 * looks at the pack alone, so that it can be said before the evidence table is made.
	 */
	offers?(ground: Ground): boolean;
	/** @param seed whole number, 0 to `mostSeed`; the same seed and ground give the same drill */
	make(ground: Ground, seed: number): Drill;
}
