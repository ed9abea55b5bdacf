/**
 * Where to go after a choice that can be made on any page.
 * @param from  the page it was made on, as the form says: not to be trusted
 * @param here  the address that the form was sent to
 * @returns path and query within this site; `/` for anything that leads elsewhere, or back to where only forms are taken
 */
export function wayBack(from: string, here: URL): string {
	const to = URL.canParse(from, here) ? new URL(from, here) : null;
	if (to?.origin !== here.origin || to.pathname === here.pathname) return '/';
	// A path that begins with two slashes would be read as the name of another site.
	return to.pathname.startsWith('//') ? '/' : to.pathname + to.search;
}
