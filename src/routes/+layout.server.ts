import { themeOf } from '$lib/ui/theme';
import type { LayoutServerLoad } from './$types';

export const load: LayoutServerLoad = ({ cookies }) => ({ theme: themeOf(cookies.get('theme')) });
