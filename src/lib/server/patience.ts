const patienceMs = 400;

/**
 * What is asked for where it comes within a moment, so that a page need not wait for an evidence table; else null, and the asking goes on.
 * @throws what it failed with within that moment
 */
export async function inAMoment<Value>(asked: Promise<Value>): Promise<Value | null> {
	let timer: NodeJS.Timeout | undefined;
	const later = new Promise<null>((resolve) => (timer = setTimeout(() => resolve(null), patienceMs)));
	try {
		return await Promise.race([asked, later]);
	} finally {
		clearTimeout(timer);
		// It goes on without us; whoever asks next hears of a failure, so nobody need hear of it here.
		asked.catch(() => undefined);
	}
}
