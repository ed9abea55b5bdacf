import { recogniseLearner, type Learner } from '$lib/server/accounts/index.ts';
import type { AddressedVisit } from '$lib/server/accounts/sign-in.ts';

/** A browser as the services meet it: what it keeps, with which options, and where it stands. */
export class Browser {
	readonly jar = new Map<string, string>();
	readonly options = new Map<string, object>();

	constructor(
		readonly url = 'http://localhost/',
		readonly address = '192.0.2.1'
	) {}

	/** A request of this browser, its learner recognised as the server does before anything else. */
	async arrive(): Promise<AddressedVisit & { locals: { learner: Learner | null } }> {
		const visit: AddressedVisit = {
			url: new URL(this.url),
			locals: { learner: null },
			getClientAddress: () => this.address,
			cookies: {
				get: (name) => this.jar.get(name),
				set: (name, value, options) => void (this.jar.set(name, value), this.options.set(name, options)),
				delete: (name) => void this.jar.delete(name)
			}
		};
		visit.locals.learner = await recogniseLearner(visit);
		return visit;
	}

	/** Who the server takes this browser for. */
	async learner(): Promise<Learner | null> {
		return (await this.arrive()).locals.learner;
	}
}
