import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { drawing as schema } from '#shared/scenario/schema.ts';
import { pathsOfPlace, pathsOfRun, pathsOn } from '$lib/bench/drawing/paths/paths';

const drawingOf = (family: string) => schema.parse(parse(readFileSync(`scenarios/drawings/${family}.yaml`, 'utf8')));
const drawing = drawingOf('combi-plate-primary');
const coil = drawingOf('combi-tap-coil');
const onPath = (path: string) => drawing.places.filter((place) => pathsOfPlace(drawing, place).includes(path as never)).map(({ id }) => id);

describe('the paths of a drawing', () => {
	it('leave no run out', () => {
		for (const one of [drawing, coil]) {
			const offered = pathsOn(one).map(({ path }) => path);
			expect(one.runs.filter((run) => !pathsOfRun(one, run).some((path) => offered.includes(path)))).toEqual([]);
		}
	});

	it('follow the gas from the meter to the fan, and nothing else', () => {
		expect(onPath('gas').sort()).toEqual(['fan', 'gas-inlet', 'gas-meter', 'gas-valve', 'injector']);
	});

	it('follow primary water through the plate, and heating through the radiator', () => {
		expect(onPath('primary')).toContain('plate');
		expect(onPath('primary')).not.toContain('radiator');
		expect(onPath('heating')).toContain('radiator');
		expect(onPath('heating')).not.toContain('plate');
		for (const shared of ['exchanger', 'flow-sensor', 'diverter', 'pump']) {
			expect(onPath('primary')).toContain(shared);
			expect(onPath('heating')).toContain(shared);
		}
	});

	it('follow tap water from the main to every outlet', () => {
		expect(onPath('tap').sort()).toEqual(['cold-inlet', 'inlet-filter', 'mixer', 'other-outlet', 'plate', 'tap', 'turbine']);
	});

	it('offer no primary apart from the heating circuit where nothing else takes heating water', () => {
		expect(pathsOn(coil).map(({ path }) => path)).toEqual(['tap', 'heating', 'gas', 'air', 'electricity']);
		const heating = coil.places.filter((place) => pathsOfPlace(coil, place).includes('heating')).map(({ id }) => id);
		expect(heating.sort()).toEqual(['exchanger', 'expansion-vessel', 'flow-sensor', 'heating-pipe', 'limit', 'pump', 'radiator']);
		const tap = coil.places.filter((place) => pathsOfPlace(coil, place).includes('tap')).map(({ id }) => id);
		expect(tap).toEqual(expect.arrayContaining(['cold-inlet', 'inlet-filter', 'flow-switch', 'exchanger', 'tap-sensor', 'tap']));
	});

	it('offer only what the drawing has', () => {
		const wet = { ...drawing, runs: drawing.runs.filter(({ carries }) => carries !== 'gas') };
		expect(pathsOn(drawing).map(({ path }) => path)).toEqual(['primary', 'tap', 'heating', 'gas', 'air', 'electricity']);
		expect(pathsOn(wet).map(({ path }) => path)).not.toContain('gas');
		const noRadiator = { ...drawing, places: drawing.places.filter(({ symbol }) => symbol !== 'radiator') };
		expect(pathsOn(noRadiator).map(({ path }) => path)).not.toContain('heating');
	});
});
