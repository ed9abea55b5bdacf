/** What was typed cannot be used. One line: which argument, what was expected, what came. */
export class BadInput extends Error {
	/**
	 * @param argument as typed, such as `--seed`
	 * @param came     what came instead; left out where nothing did
	 */
	constructor(argument: string, expected: string, came?: string) {
		super(`${argument}: expected ${expected}; ${came === undefined ? 'it is missing' : `came ${JSON.stringify(came)}`}`);
		this.name = 'BadInput';
	}
}
