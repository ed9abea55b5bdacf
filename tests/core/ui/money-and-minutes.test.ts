import { expect, it } from 'vitest';
import { doneAt, minutesText, money } from '$lib/ui/money';

it('money is rounded one way wherever it stands', () => {
	expect(money(62.5, '£')).toBe('£63');
	expect(money(62.5, 'GBP')).toBe('£63');
	expect(money(62.4, '£')).toBe('£62');
});

it('a minute is written one way, and is when the thing was done', () => {
	expect(minutesText(65.2)).toBe('65 min');
	expect(doneAt({ minute: 26, minutes: 1 })).toBe(27);
});
