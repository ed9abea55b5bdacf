/** Keeps the most recently used values up to a number; anything dropped can be computed again. */
export class Recent<Value> {
	readonly #kept = new Map<string, Value>();

	/** @param most  how many are kept, >= 1 */
	constructor(private readonly most: number) {}

	get(key: string): Value | undefined {
		const value = this.#kept.get(key);
		if (value !== undefined) this.set(key, value);
		return value;
	}

	set(key: string, value: Value): void {
		this.#kept.delete(key);
		this.#kept.set(key, value);
		if (this.#kept.size > this.most) this.#kept.delete(this.#kept.keys().next().value!);
	}

	delete(key: string): void {
		this.#kept.delete(key);
	}
}
