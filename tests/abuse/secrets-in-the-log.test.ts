import { expect, it, vi } from 'vitest';
import { log } from '$lib/server/log.ts';
import { handleError } from '../../src/hooks.server.ts';

it.each([
	['/calendar/[secret].ics', '/calendar/very-secret-words.ics'],
	['/owner/[secret]', '/owner/very-secret-words'],
	[null, '/very-secret-words']
])('an error of the server on %s is logged without the secret in the address', async (id, path) => {
	const logged = vi.spyOn(log, 'error').mockImplementation(() => undefined);
	const event = { url: new URL(`http://localhost${path}`), route: { id } };
	const shown = await handleError({ error: new Error('broken'), event, status: 500, message: 'Internal Error' } as never);
	expect(logged).toHaveBeenCalledTimes(1);
	const [what] = logged.mock.calls[0] as unknown as [{ id: string; route: string | null }];
	expect(what).toMatchObject({ id: shown!.id, route: id });
	expect(JSON.stringify(logged.mock.calls)).not.toContain('very-secret-words');
	logged.mockRestore();
});
