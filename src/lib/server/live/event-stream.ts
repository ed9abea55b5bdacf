import type { Watcher } from './ticker.ts';

/** For proxies on the way: what is sent is sent at once and as it is. */
const headers = { 'content-type': 'text/event-stream', 'cache-control': 'private, no-store, no-transform', 'x-accel-buffering': 'no' };

/**
 * Server-sent events of what a watcher is told. To one who reads slower than things change the latest is sent and what lay between is left
 * out, so that nothing piles up here. When the client goes, the watch ends.
 * @param watch  begins the watch and returns what ends it
 */
export function eventStream(watch: (watcher: Omit<Watcher, 'session'>) => () => void): Response {
	const encoder = new TextEncoder();
	let waiting: string | null = 'retry: 2000\n\n';
	let end: () => void = () => undefined;

	function pass(controller: ReadableStreamDefaultController<Uint8Array>): void {
		if (waiting === null || (controller.desiredSize ?? 0) <= 0) return;
		controller.enqueue(encoder.encode(waiting));
		waiting = null;
	}

	const stream = new ReadableStream<Uint8Array>({
		start(controller) {
			pass(controller);
			end = watch({
				tell(shown) {
					waiting = `data: ${shown}\n\n`;
					pass(controller);
				},
				beat() {
					waiting ??= ':\n\n';
					pass(controller);
				},
				over() {
					controller.enqueue(encoder.encode('event: over\ndata:\n\n'));
					controller.close();
				}
			});
		},
		pull: pass,
		cancel: () => end()
	});
	return new Response(stream, { headers });
}
