/** The wall in a browser: followed by events, and asked for where no events come. */
import type { Shown } from '$lib/server/live/ticker';

/** Between two askings where events do not come. */
const askEveryMs = 3000;
/** Between two looks at the clock. */
const clockMs = 1000;

export type How = 'once' | 'events' | 'asking' | 'over';

export class Following {
	#shown = $state.raw() as Shown;
	#now = $state(0);
	#how = $state<How>('once');
	#heard = 0;

	constructor(shown: Shown) {
		this.take(shown);
	}

	get wall() {
		return this.#shown.wall;
	}
	/** The server's clock [ms since 1970], wherever that of this machine stands. */
	get now() {
		return this.#now;
	}
	/** How it is kept up to date; `over` where this browser may not look any longer. */
	get how() {
		return this.#how;
	}

	take(shown: Shown): void {
		this.#shown = shown;
		this.#now = shown.now;
		this.#heard = performance.now();
	}

	/** @param at  address of the page's own path, under which the events and the wall as it stands are  @returns ends it */
	follow(at: string): () => void {
		const events = new EventSource(`${at}/events`);
		let asking: ReturnType<typeof setInterval> | undefined;
		const clock = setInterval(() => (this.#now = this.#shown.now + performance.now() - this.#heard), clockMs);
		const end = () => {
			events.close();
			clearInterval(asking);
			clearInterval(clock);
		};
		const over = () => {
			this.#how = 'over';
			end();
		};
		const ask = async () => {
			const answer = await fetch(`${at}/now`, { redirect: 'manual' }).catch(() => null);
			// No answer at all is a connection that is gone for now; a refusal is meant.
			if (answer === null || answer.status >= 500) return;
			if (!answer.ok) return over();
			this.take((await answer.json()) as Shown);
		};
		events.onmessage = ({ data }) => {
			clearInterval(asking);
			asking = undefined;
			this.#how = 'events';
			this.take(JSON.parse(data) as Shown);
		};
		events.addEventListener('over', over);
		events.onerror = () => {
			if (asking || this.#how === 'over') return;
			this.#how = 'asking';
			asking = setInterval(() => void ask(), askEveryMs);
		};
		return end;
	}
}
