/**
 * Lets nothing be sent from the page any more, nor from what is opened on it later.
 * @returns takes that back
 */
export function shutForms(): () => void {
	const main = document.querySelector('main')!;
	const refuse = (event: SubmitEvent) => {
		event.preventDefault();
		event.stopPropagation();
	};
	const shut = () => main.querySelectorAll('form').forEach((form) => (form.inert = true));
	const watched = new MutationObserver(shut);
	watched.observe(main, { childList: true, subtree: true });
	// Before any form's own listener hears of it.
	addEventListener('submit', refuse, true);
	shut();
	return () => {
		watched.disconnect();
		removeEventListener('submit', refuse, true);
		main.querySelectorAll('form').forEach((form) => (form.inert = false));
	};
}
