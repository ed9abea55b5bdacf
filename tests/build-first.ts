import { buildIfChanged } from '../scripts/make-ready.mjs';

/** The tests of the running server meet the sources as they are now. */
export default function buildFirst(): void {
	if (!buildIfChanged()) throw new Error('The app could not be built.');
}
