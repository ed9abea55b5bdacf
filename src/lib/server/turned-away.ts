/** What Kit answers by itself where something is thrown, as answers that whoever asks can still add headers to. */
import page from '../../error.html?raw';

/** A refusal: the designed page where a page was asked for, and JSON where a script of ours asks. @param says  as plain text */
export function refusal(status: number, says: string, { request, isDataRequest }: { request: Request; isDataRequest: boolean }): Response {
	const wantsPage = !isDataRequest && (request.headers.get('accept') ?? 'text/html').includes('text/html');
	if (!wantsPage) return Response.json({ message: says }, { status });
	const filled = page.replaceAll('%sveltekit.status%', String(status)).replaceAll('%sveltekit.error.message%', () => inMarkup(says));
	return new Response(filled, { status, headers: { 'content-type': 'text/html; charset=utf-8' } });
}

const entities: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
/** A name of an account may be part of it. */
const inMarkup = (text: string): string => text.replace(/[&<>"]/g, (one) => entities[one]!);

/** On the way elsewhere within this site. Kit makes of it what its scripts expect where data was asked for. */
export const sentTo = (location: string): Response => new Response(null, { status: 303, headers: { location } });
