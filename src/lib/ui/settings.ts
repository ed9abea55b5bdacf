/** What a reader has chosen for this browser. Each choice is a cookie of its own, so that every page is right as it is sent. */
import { themeOf, type Theme } from './theme';

/** Names of the cookies; a choice that is on has the value `1`. */
export const cookieNames = {
	theme: 'theme',
	contrast: 'provewell-contrast',
	ownSettings: 'provewell-own-settings',
	bands: 'provewell-bands',
	coaching: 'provewell-coaching',
	order: 'provewell-sheet-order',
	toured: 'provewell-toured'
} as const;

export const yearS = 365 * 24 * 3600;

export interface Settings {
	readonly theme: Theme;
	/** More contrast, whatever the system asks for. */
	readonly contrast: boolean;
	/** Range and terminals of an instrument are set by the learner. */
	readonly ownSettings: boolean;
	/** After a judgement the band of a sound appliance is shown beside each reading. */
	readonly bands: boolean;
	/** Before a check the learner is asked what it would read. */
	readonly coaching: boolean;
}

export function settingsOf(cookies: { get(name: string): string | undefined }): Settings {
	const isOn = (name: string) => cookies.get(name) === '1';
	return {
		theme: themeOf(cookies.get(cookieNames.theme)),
		contrast: isOn(cookieNames.contrast),
		ownSettings: isOn(cookieNames.ownSettings),
		bands: isOn(cookieNames.bands),
		coaching: isOn(cookieNames.coaching)
	};
}

/** Readings on the sheet: in the order they were taken, or by what they concern. */
export const sheetOrders = ['time', 'area'] as const;
export type SheetOrder = (typeof sheetOrders)[number];

/** The first of these that names an order; `time` where none does. */
export function sheetOrderOf(...said: readonly unknown[]): SheetOrder {
	return said.map((one) => sheetOrders.find((order) => order === one)).find((order) => order !== undefined) ?? 'time';
}

/** Remembers a choice from within the page. */
export function remember(name: string, value: string): void {
	document.cookie = `${name}=${value}; path=/; max-age=${yearS}; samesite=lax`;
}
