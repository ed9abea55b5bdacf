/** Light, dark, or as the system has it; kept in the cookie `theme`. */
export const themes = ['system', 'light', 'dark'] as const;
export type Theme = (typeof themes)[number];
export const themeNames: Readonly<Record<Theme, string>> = { system: 'As the system', light: 'Paper', dark: 'Slate' };

/** What a cookie or a form says, `system` where it says nothing known. */
export function themeOf(said: unknown): Theme {
	return themes.find((theme) => theme === said) ?? 'system';
}
