/** Where statements go and by what name this server is known in them, from the environment. */

export interface RecordStore {
	/** To which `/statements` is added; without a slash at its end. */
	readonly address: string;
	/** Null where the store asks for none. */
	readonly user: string | null;
	readonly password: string;
}

/** The record store that was set; null where there is none. A user and a password in the address itself are taken out of it. */
export function recordStore(env: NodeJS.ProcessEnv = process.env): RecordStore | null {
	const { PROVEWELL_RECORD_STORE: set, PROVEWELL_RECORD_STORE_USER: user, PROVEWELL_RECORD_STORE_PASSWORD: password } = env;
	if (!set) return null;
	const url = URL.canParse(set) ? new URL(set) : null;
	// What is no address fails at each try, and is said there; nothing is lost by it.
	if (!url) return { address: set, user: user || null, password: password ?? '' };
	const own = { user: decodeURIComponent(url.username), password: decodeURIComponent(url.password) };
	[url.username, url.password] = ['', ''];
	const address = `${url.origin}${url.pathname.replace(/\/+$/, '')}`;
	return { address, user: user || own.user || null, password: password ?? own.password };
}

/** The address by which this server is named in what leaves it, without a slash at its end, and whether anybody said so. */
export function ownOrigin(env: NodeJS.ProcessEnv = process.env): { readonly origin: string; readonly isSet: boolean } {
	const set = env.PROVEWELL_ORIGIN || env.ORIGIN;
	if (set && URL.canParse(set)) return { origin: new URL(set).origin, isSet: true };
	return { origin: `http://${env.HOST || '127.0.0.1'}:${env.PORT || 4173}`, isSet: false };
}
