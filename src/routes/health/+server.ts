import { json } from '@sveltejs/kit';
import { databaseAnswers } from '$lib/server/health';

/** Whether the server can serve: it is up and its database answers. */
export function GET() {
	const well = databaseAnswers();
	return json({ well }, { status: well ? 200 : 503, headers: { 'cache-control': 'no-store' } });
}
