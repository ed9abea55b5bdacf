/** The analyser shows no ratio where nothing burns, and what shows nothing is no check after work. */
import { describe, expect, it } from 'vitest';
import { act } from '#shared/callout/act.ts';
import { checksDue } from '#shared/callout/disturbed.ts';
import { makeCallout } from '#shared/callout/make.ts';
import { demand, does, leave, remedy, step } from './drive.ts';
import { packs } from './combi-pack.ts';

const ratio = { kind: 'check', check: 'measure-co-ratio' } as const;
const madeSafe = ['isolate-electricity', 'prove-dead', 'isolate-gas', 'open-casing'].map(step);
const restored = ['close-casing', 'restore-gas', 'restore-electricity'].map(step);

describe.each([...packs])('%s', (_, pack) => {
	const dark = makeCallout(pack, 3, 'gas-valve-shut');

	it('reads nothing on a burner that does not light, though it was asked to', () => {
		const reading = does(dark, [demand('tap'), ratio]).readings.at(-1)!;
		expect(reading.text).toBe('no reading');
		expect(reading.value).toBe(Infinity);
	});

	it('takes no such reading for the check that must follow work', () => {
		const worked = does(dark, [...madeSafe, remedy('clean-electrode'), ...restored, demand('tap'), ratio]);
		expect(checksDue(pack, worked)).toContain('measure-co-ratio');
		expect(act(dark, worked, leave)).toMatchObject({ ended: 'left' });
		expect(does(dark, [leave], worked).events.at(-1)?.breaches).toContain('left-combustion-unproved');
	});

	it('takes a reading of the burner lit', () => {
		const worked = does(dark, [...madeSafe, remedy('fit-gas-valve'), remedy('clean-electrode'), ...restored, demand('tap'), ratio]);
		expect(worked.readings.at(-1)!.value).toBeLessThan(0.004);
		expect(checksDue(pack, worked)).not.toContain('measure-co-ratio');
	});
});
