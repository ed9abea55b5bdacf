/** What is asked for while something else is on its way waits, and is done after it, in the order in which it was asked for. */

interface Waiting {
	readonly what: string;
	readonly go: (isItsTurn: boolean) => void;
}

export class Turns {
	/** What is on its way. */
	#now: string | null = $state(null);
	#line: readonly Waiting[] = $state.raw([]);

	get isBusy(): boolean {
		return this.#now !== null;
	}
	get waiting(): number {
		return this.#line.length;
	}

	/**
	 * @param what  tells one thing from another: the same again, straight after itself, is the same thing still
	 * @returns once it is its turn, whether it is to be done: not where it is the same, or where something before it was not done
	 */
	async take(what: string): Promise<boolean> {
		if (what === (this.#line.at(-1)?.what ?? this.#now)) return false;
		if (this.#now === null) {
			this.#now = what;
			return true;
		}
		return new Promise((go) => (this.#line = [...this.#line, { what, go }]));
	}

	/** What was on its way is done: the next one goes. */
	done(): void {
		const [next, ...line] = this.#line;
		this.#now = next?.what ?? null;
		this.#line = line;
		next?.go(true);
	}

	/** What was on its way was not done. What waited was asked for in the belief that it would be, so none of that is done. @returns how many */
	holdBack(): number {
		const line = this.#line;
		this.#now = null;
		this.#line = [];
		for (const { go } of line) go(false);
		return line.length;
	}
}
