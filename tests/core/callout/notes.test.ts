import { describe, expect, it } from 'vitest';
import { action, noteLength } from '#shared/callout/action.ts';
import { start } from '#shared/callout/act.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { viewOf } from '#shared/callout/view-of.ts';
import { smallPack } from '../scenario/small-family.ts';
import { check, demand, does, leave, refusal } from './drive.ts';

const callout = makeCallout(smallPack(), 3);
const note = (text: string) => ({ kind: 'note' as const, text });

describe('a note on the job sheet', () => {
	it('is trimmed, has one character at least and five hundred at most', () => {
		expect(action.parse(note('  began after the frost \n'))).toEqual(note('began after the frost'));
		expect(action.safeParse(note(' \n ')).success).toBe(false);
		expect(action.safeParse(note('x'.repeat(noteLength))).success).toBe(true);
		expect(action.safeParse(note('x'.repeat(noteLength + 1))).success).toBe(false);
	});

	it('costs nothing and changes no later reading', () => {
		const plain = does(callout, [demand('tap'), check('tap-temperature')]);
		const noted = does(callout, [note('here'), demand('tap'), note('there'), check('tap-temperature')]);
		expect(noted.minutes).toBe(plain.minutes);
		expect(noted.spent).toBe(plain.spent);
		expect(noted.readings.map(({ check: id, value, minute }) => [id, value, minute])).toEqual(
			plain.readings.map(({ check: id, value, minute }) => [id, value, minute])
		);
	});

	it('stands on the sheet with the minute it was written, and in the path', () => {
		const view = viewOf(callout, does(callout, [demand('tap'), note('cold pipe')]));
		expect(view.notes).toEqual([{ event: 1, minute: view.minutes, text: 'cold pipe' }]);
		expect(view.events.at(-1)).toMatchObject({ kind: 'note', did: 'Note: cold pipe', minutes: 0 });
	});

	it('is taken until the visit ends and not after', () => {
		const ended = does(callout, [note('first'), leave], start());
		expect(refusal(callout, ended, note('late'))).toMatch(/over/);
	});
});
