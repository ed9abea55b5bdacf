import { describe, expect, it } from 'vitest';
import { readFigure } from '#shared/review/drills/figures.ts';
import { askedUnit, inUnit, unitsLike, writtenUnits } from '#shared/review/drills/written-units.ts';

/** What a text may mean in the first unit asked for; the refusal where it is refused. */
function meant(written: string, ...units: string[]): number[] | string {
	const read = readFigure(written, units);
	if ('refused' in read) return read.refused;
	return read.figures.map(({ number, unit }) => Number(inUnit(number, unit, askedUnit(units)).toPrecision(6)));
}

describe('numbers', () => {
	it.each([
		['12.5', [12.5]],
		['12,5', [12.5]],
		[' 12.5 ', [12.5]],
		['.5', [0.5]],
		[',5', [0.5]],
		['12.', [12]],
		['1 234.5', [1234.5]],
		['1 234,5', [1234.5]],
		['1\u00a0234', [1234]],
		["12'345", [12345]],
		['1,234.5', [1234.5]],
		['1.234,5', [1234.5]],
		['1,234,500', [1234500]],
		['1.234.500', [1234500]],
		['1,234', [1234, 1.234]],
		['0,234', [0.234]],
		['1.234', [1.234]],
		['1234,56', [1234.56]],
		['-3', [-3]],
		['−3', [-3]],
		['2.2e-3', [0.0022]],
		['2.2 x 10^-3', [0.0022]],
		['2.2×10^-3', [0.0022]],
		['= 12.5', [12.5]],
		['about 12.5', [12.5]],
		['~12.5', [12.5]]
	] as const)('%j is %j', (written, figures) => expect(meant(written, 'kW')).toEqual(figures));

	it.each(['', '   ', 'twelve', 'kW', '.', 'about'])('there is none in %j', (written) => {
		expect(meant(written, 'kW')).toBe('A figure in kW is expected; there is no number in this.');
	});

	it.each(['12 5', '1,23,4', '1.2.3', '12.5.', '1 2345'])('%j is not one number', (written) => {
		expect(meant(written, 'kW')).toBe('A figure in kW is expected, as one number.');
	});

	it.each(['12 - 13', '12/13', '12-13 kW'])('%j is more than one', (written) => {
		expect(meant(written, 'kW')).toBe('This holds more than one number. A figure in kW is expected.');
	});

	it.each([
		['１２．５', [12.5]],
		['１２,５ ｋＷ', [12.5]],
		['−３', [-3]],
		['１ ２３４', [1234]],
		['2.2e−3', [0.0022]]
	] as const)('%j, as another keyboard writes it, is %j', (written, figures) => expect(meant(written, 'kW')).toEqual(figures));

	it.each(['10³', '10³ kW', '2½', '½'])('%j is not read as another number than it is', (written) => {
		expect(meant(written, 'kW')).toEqual(expect.stringContaining('A figure in kW is expected'));
	});

	it.each(['1e999', '-1e999', '1 x 10^400', '1e-400', '0.001e-323', '9e308', '5e-324 ppm', '1e308 l/s'])(
		'%j is too large or too small for any figure, and is refused',
		(written) => {
			const units = written.endsWith('ppm') ? ['ratio'] : written.endsWith('l/s') ? ['l/h'] : ['kW'];
			expect(meant(written, ...units)).toMatch(/^This is too (large|small) to be read\. A figure .* is expected\.$/);
		}
	);

	it.each(['0', '0.000', '0e-400', '0e999', '-0'])('%j is nought', (written) => {
		expect((meant(written, 'kW') as number[]).map(Math.abs)).toEqual([0]);
	});

	it('is not asked of a text longer than any figure', () => {
		expect(meant('1'.repeat(61), 'kW')).toBe('A figure in kW is expected; this is longer than any.');
		expect(meant(`${'9'.repeat(55)}e9`, 'kW')).toHaveLength(1);
	});
});

describe('units as a tradesman writes them', () => {
	it.each([
		['24 kW', 24, 'kW'],
		['24kw', 24, 'kW'],
		['24 KW', 24, 'kW'],
		['24 kW net', 24, 'kW'],
		['24 kilowatts', 24, 'kW'],
		['24000 W', 24, 'kW'],
		['24 000 watts', 24, 'kW'],
		['2.5 m3/h', 2.5, 'm3/h'],
		['2.5 m³/h', 2.5, 'm3/h'],
		['2.5 m^3/h', 2.5, 'm3/h'],
		['2.5 m3/hr', 2.5, 'm3/h'],
		['2.5 cubic metres an hour', 2.5, 'm3/h'],
		['88.2867 ft3/h', 2.5, 'm3/h'],
		['88.2867 cu. ft. per hour', 2.5, 'm3/h'],
		['41.66667 l/min', 2.5, 'm3/h'],
		['12 l/min', 12, 'l/min'],
		['12 lpm', 12, 'l/min'],
		['12 l / m', 12, 'l/min'],
		['12 litres a minute', 12, 'l/min'],
		['12 litres per minute', 12, 'l/min'],
		['12 ltr/min', 12, 'l/min'],
		['0.2 l/s', 12, 'l/min'],
		['0.2 litres a second', 12, 'l/min'],
		['720 l/h', 12, 'l/min'],
		['0.72 m3/h', 12, 'l/min'],
		['3606 ohm', 3606, 'ohm'],
		['3606 Ω', 3606, 'ohm'],
		['3606 \u2126', 3606, 'ohm'],
		['3.606 k', 3606, 'ohm'],
		['3.606 K', 3606, 'ohm'],
		['3.606kΩ', 3606, 'ohm'],
		['3.606 kohm', 3606, 'ohm'],
		['4k7', 4700, 'ohm'],
		['4K7 Ω', 4700, 'ohm'],
		['47R5', 47.5, 'ohm'],
		['20 mbar', 20, 'mbar'],
		['20 mb', 20, 'mbar'],
		['0.02 bar', 20, 'mbar'],
		['2 kPa', 20, 'mbar'],
		['2000 Pa', 20, 'mbar'],
		['42 degC', 42, 'degC'],
		['42 °C', 42, 'degC'],
		['42 ℃', 42, 'degC'],
		['42 C', 42, 'degC'],
		['42 deg. C', 42, 'degC'],
		['42 degrees', 42, 'degC'],
		['315.15 K', 42, 'degC'],
		['30 K', 30, 'K'],
		['30 degC', 30, 'K'],
		['30 °C', 30, 'K'],
		['4.8 %', 4.8, '%'],
		['4.8 per cent', 4.8, '%'],
		['48000 ppm', 4.8, '%'],
		['0.0022', 0.0022, 'ratio'],
		['0.0022:1', 0.0022, 'ratio'],
		['0.22 %', 0.0022, 'ratio'],
		['2200 ppm', 0.0022, 'ratio'],
		['11.2 kWh', 11.2, 'kWh'],
		['40.32 MJ', 11.2, 'kWh'],
		['13 A', 13, 'A'],
		['13 amps', 13, 'A'],
		['13000 mA', 13, 'A'],
		['2.5 V d.c.', 2.5, 'V'],
		['2500 mV', 2.5, 'V'],
		['2.5 litres', 2.5, 'l'],
		['2500 ml', 2.5, 'l'],
		['0.0025 m3', 2.5, 'l'],
		['14 min', 14, 'min'],
		['14 mins', 14, 'min'],
		['840 s', 14, 'min'],
		['14 min 30 s', 14.5, 'min'],
		['14m 30s', 14.5, 'min'],
		['14 minutes and 30 seconds', 14.5, 'min'],
		['14 min 30', 14.5, 'min'],
		['1 h 20 min', 80, 'min'],
		['1 hour 20', 80, 'min'],
		['1.5 hours', 90, 'min']
	] as const)('%s is %d %s', (written, value, unit) => expect(meant(written, unit)).toEqual([value]));

	it('takes a bare number in the first unit asked for', () => {
		expect(meant('12', 'l/min', 'm3/h')).toEqual([12]);
		expect(meant('12', 'm3/h', 'l/min')).toEqual([12]);
	});

	it('reads every word of every unit, and no word twice within a dimension', () => {
		for (const unit of writtenUnits) {
			const like = unitsLike(unit);
			for (const word of unit.words) expect(like.filter(({ words }) => words.includes(word)).map(({ name }) => name)).toEqual([unit.name]);
		}
	});

	it('turns each unit into each of its dimension and back', () => {
		for (const from of writtenUnits)
			for (const to of unitsLike(from)) expect(inUnit(inUnit(12.5, from, to), to, from)).toBeCloseTo(12.5, 9);
	});

	it('refuses a unit that is not known, and says what is expected', () => {
		expect(meant('12 bananas', 'l/min', 'l/s')).toBe("No unit written 'bananas' is known here. A figure in l/min or l/s is expected.");
		expect(meant('12 xyz', 'ratio')).toBe("No unit written 'xyz' is known here. A figure without a unit is expected.");
	});

	it('refuses a unit of another kind', () => {
		expect(meant('12 bar', 'l/min')).toBe('A figure in bar is of another kind (pressure). A figure in l/min is expected.');
	});

	it('knows no unit of another name', () => {
		expect(() => readFigure('12', ['furlong'])).toThrow(RangeError);
	});
});
