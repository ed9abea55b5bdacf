/** What came back from the server, with everything a curious learner could read. */
export interface Answer {
	readonly status: number;
	readonly body: string;
	readonly headers: string;
}

/** A browser without a page: keeps cookies, sends forms as the pages do, and remembers every answer. */
export class Visitor {
	readonly answers: Answer[] = [];
	readonly cookies = new Map<string, string>();

	constructor(public address: string) {}

	get(path: string): Promise<Answer> {
		return this.#ask(path, {});
	}

	/** @param origin  the site whose page holds the form; the server's own where left out */
	post(path: string, fields: Record<string, string> | [string, string][], origin = this.address): Promise<Answer> {
		return this.#ask(path, { method: 'POST', body: new URLSearchParams(fields), headers: { origin, accept: 'text/html' } });
	}

	/** A body of any kind, from the server's own pages. */
	send(path: string, body: string, type: string): Promise<Answer> {
		return this.#ask(path, { method: 'POST', body, headers: { origin: this.address, accept: 'text/html', 'content-type': type } });
	}

	async #ask(path: string, request: RequestInit): Promise<Answer> {
		const cookie = [...this.cookies].map(([name, value]) => `${name}=${value}`).join('; ');
		const response = await fetch(new URL(path, this.address), {
			...request,
			redirect: 'manual',
			headers: { ...request.headers, ...(cookie && { cookie }) }
		});
		for (const set of response.headers.getSetCookie()) {
			const [, name, value] = /^([^=]+)=([^;]*)/.exec(set)!;
			this.cookies.set(name!, value!);
		}
		const headers = [...response.headers].map(([name, value]) => `${name}: ${value}`).join('\n');
		const answer = { status: response.status, body: await response.text(), headers };
		this.answers.push(answer);
		return answer;
	}
}
