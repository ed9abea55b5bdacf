/** Whether scripts have taken over the page: before that, and without them, everything must be in the page as it came. */
let taken = $state(false);

export const scripted = {
	get now(): boolean {
		return taken;
	},
	/** Called when a component is mounted in a browser. */
	takeOver(): void {
		taken = true;
	}
};
