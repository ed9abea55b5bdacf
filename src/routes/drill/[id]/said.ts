/** What a form said that could not be taken as an answer, so that it need not be filled in anew. */
export interface Said {
	readonly chosen: readonly string[];
	readonly written: string;
	/** Numbers by the id of the choice. */
	readonly places: Readonly<Record<string, string>>;
}
