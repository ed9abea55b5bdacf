/** One clock a paper, which looks for everyone who watches it. */
import { log } from '../log.ts';
import type { Wall } from './wall.ts';

/** The database is looked at no oftener, however many watch. */
export const everyMs = 1000;
/** A watcher who was told nothing for so long is sent a sign of life, by which a connection that is gone is found out. */
const beatMs = 15_000;

export interface Watcher {
	/** Id of the browser's session: it watches for as long as that may. */
	readonly session: string;
	/** Something is other than before. @param shown  JSON of `Shown` */
	tell(shown: string): void;
	beat(): void;
	/** The session may not watch any longer, or the paper is gone. Nothing comes after it. */
	over(): void;
}

/** What a page shows: the wall, and the server's clock when it was so [ms since 1970]. */
export interface Shown {
	readonly now: number;
	readonly wall: Wall;
}

export interface Look {
	readonly wall: Wall;
	/** Those of the sessions asked about that may still watch. */
	readonly mayWatch: ReadonlySet<string>;
}

export class Ticker {
	readonly #watchers = new Map<Watcher, number>();
	#timer: NodeJS.Timeout | undefined;
	#last: { readonly at: number; readonly wall: Wall; readonly said: string } | null = null;

	/** @param look  reads the database; null where the paper is gone */
	constructor(private readonly look: (sessions: readonly string[], now: number) => Look | null) {}

	get watchers(): number {
		return this.#watchers.size;
	}

	/** The wall, not older than `everyMs`; null where the paper is gone. */
	latest(): Shown | null {
		if (this.#last === null || Math.abs(Date.now() - this.#last.at) >= everyMs) this.#lookNow();
		return this.#last && { now: this.#last.at, wall: this.#last.wall };
	}

	/** What was read is behind what was written. */
	forget(): void {
		this.#last = null;
	}

	/** Tells a watcher how things stand, and then whatever changes. @returns ends it; with the last watcher the clock stops */
	watch(watcher: Watcher): () => void {
		const shown = this.latest();
		this.#watchers.set(watcher, Date.now());
		this.#timer ??= setInterval(() => this.#tick(), everyMs).unref();
		if (shown) watcher.tell(JSON.stringify(shown));
		return () => this.#leave(watcher);
	}

	#leave(watcher: Watcher): void {
		this.#watchers.delete(watcher);
		if (this.#watchers.size > 0) return;
		clearInterval(this.#timer);
		this.#timer = undefined;
	}

	#tick(): void {
		const before = this.#last?.said;
		try {
			const mayWatch = this.#lookNow();
			const now = Date.now();
			const isNews = this.#last !== null && this.#last.said !== before;
			const shown = isNews ? JSON.stringify({ now: this.#last!.at, wall: this.#last!.wall } satisfies Shown) : null;
			for (const [watcher, told] of [...this.#watchers]) {
				if (!mayWatch.has(watcher.session)) {
					this.#leave(watcher);
					watcher.over();
				} else if (shown !== null) {
					this.#watchers.set(watcher, now);
					watcher.tell(shown);
				} else if (now - told >= beatMs) {
					this.#watchers.set(watcher, now);
					watcher.beat();
				}
			}
		} catch (error) {
			// The next look may do better; those who watch see what was so before.
			log.error({ error: String(error) }, 'The live view of a paper could not be read.');
		}
	}

	#lookNow(): ReadonlySet<string> {
		const now = Date.now();
		const found = this.look([...new Set([...this.#watchers.keys()].map(({ session }) => session))], now);
		this.#last = found && { at: now, wall: found.wall, said: JSON.stringify(found.wall) };
		return found?.mayWatch ?? new Set();
	}
}
