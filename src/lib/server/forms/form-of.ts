import { error, isHttpError } from '@sveltejs/kit';

const kinds = ['application/x-www-form-urlencoded', 'multipart/form-data'];

/**
 * The form that a request carries.
 * @throws the answer 400 with a sentence where it carries none that can be read; what Kit says of one too large goes on as it is
 */
export async function formOf(request: Request): Promise<FormData> {
	const kind = request.headers.get('content-type')?.split(';', 1)[0]!.trim().toLowerCase() ?? '';
	if (!kinds.includes(kind)) error(400, 'A form was expected here, and what was sent is none.');
	try {
		return await request.formData();
	} catch (failed) {
		if (isHttpError(failed) || (failed as { status?: unknown }).status === 413) throw failed;
		error(400, 'The form could not be read: it came broken or incomplete. Go back and send it again.');
	}
}
