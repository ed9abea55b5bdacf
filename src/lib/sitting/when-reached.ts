/** How long to wait between two tries, and for the answer to one [ms]. */
const betweenMs = 3000;
const patienceMs = 5000;

/**
 * Does something as soon as the server can be reached: tried now, every few seconds, and when the connection comes back.
 * @param then  may be done more than once, until the tries are stopped; that it fails is no matter
 * @returns stops the tries
 */
export function whenReached(then: () => unknown): () => void {
	let isTrying = false;
	async function go() {
		if (isTrying) return;
		isTrying = true;
		try {
			// Asked first: a page that is turned without a connection is lost.
			const { ok } = await fetch('/health', { cache: 'no-store', signal: AbortSignal.timeout(patienceMs) });
			if (ok) await then();
		} catch {
			// The next try may do.
		} finally {
			isTrying = false;
		}
	}
	const timer = setInterval(go, betweenMs);
	addEventListener('online', go);
	void go();
	return () => {
		clearInterval(timer);
		removeEventListener('online', go);
	};
}
