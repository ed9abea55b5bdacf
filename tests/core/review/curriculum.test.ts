import { describe, expect, it } from 'vitest';
import { areas, type Area } from '#shared/scenario/areas.ts';
import { curriculumFile, drillKinds, readCurriculum, type Curriculum } from '#shared/scenario/curriculum.ts';
import { areaSkillId, drillSkillId, skillsOf, type Taught } from '#shared/review/skills.ts';
import { scenariosFolder, textsIn } from '$lib/server/packs/read-scenarios.ts';
import { packs } from '../callout/combi-pack.ts';

const text = textsIn(scenariosFolder()).find(({ name }) => name === curriculumFile)!;
const read = readCurriculum(text);
const curriculum = read.curriculum!;
const taught = (id: string, has: readonly Area[]): Taught => ({
	family: { id, short: id },
	faults: has.map((area) => ({ id: `${area}-fault`, area }))
});
const problemsOf = (change: (text: string) => string) => readCurriculum({ name: curriculumFile, text: change(text.text) }).problems;

describe('the curriculum in stock', () => {
	it('holds together, names every area and every kind of drill, and no family that is not there', () => {
		expect(read.problems).toEqual([]);
		expect(Object.keys(curriculum.areas).toSorted()).toEqual(Object.keys(areas).toSorted());
		expect(curriculum.drills.map(({ id }) => id).toSorted()).toEqual([...drillKinds].toSorted());
		expect(skillsOf(curriculum, packs.values()).problems).toEqual([]);
	});

	it('makes a skill of each area in which a family has faults, and of each kind of drill, and of nothing else', () => {
		const { skills } = skillsOf(curriculum, packs.values());
		const wanted = [...packs.values()].flatMap(({ family, faults }) => faults.map(({ area }) => areaSkillId(family.id, area)));
		expect(skills.map(({ id }) => id).toSorted()).toEqual([...new Set([...wanted, ...drillKinds.map(drillSkillId)])].toSorted());
	});

	it('begins every family with water supply, and lets every skill be begun in the end', () => {
		const { skills } = skillsOf(curriculum, [taught('a', Object.keys(areas) as Area[]), taught('b', ['water-supply', 'gas'])]);
		const begun = new Set<string>();
		for (let found = true; found;) {
			const open = skills.filter(({ id, after }) => !begun.has(id) && after.every((one) => begun.has(one)));
			if (begun.size === 0)
				expect(open.flatMap((skill) => (skill.kind === 'area' ? skill.id : []))).toEqual(['a/water-supply', 'b/water-supply']);
			open.forEach(({ id }) => begun.add(id));
			found = open.length > 0;
		}
		expect(begun.size).toBe(skills.length);
	});
});

describe('skills', () => {
	it('pass over areas that a family has no fault in to what comes before those', () => {
		const { skills } = skillsOf(curriculum, [taught('a', ['water-supply', 'gas'])]);
		// Gas comes after flame, electrical and sensing, none of which it has, and those after water supply.
		expect(skills.find(({ id }) => id === 'a/gas')!.after).toEqual(['a/water-supply']);
		const alone = skillsOf(curriculum, [taught('a', ['gas'])]).skills;
		expect(alone.find(({ id }) => id === 'a/gas')!.after).toEqual([]);
	});

	it("take a family's own minutes and order where it has them", () => {
		const own: Curriculum = { ...curriculum, families: { a: { gas: { after: [], minutes: 12 } } } };
		const gas = (family: string) =>
			skillsOf(own, [taught('a', ['water-supply', 'gas']), taught('b', ['water-supply', 'gas'])]).skills.find(
				({ id }) => id === `${family}/gas`
			);
		expect(gas('a')).toMatchObject({ after: [], minutes: 12 });
		expect(gas('b')).toMatchObject({ after: ['b/water-supply'], minutes: curriculum.areas.gas.minutes });
	});

	it('of families and areas that are not there are told, each with its kind', () => {
		const own: Curriculum = { ...curriculum, families: { nobody: { gas: { minutes: 5 } }, a: { stored: { minutes: 5 } } } };
		const { skills, problems } = skillsOf(own, [taught('a', ['gas'])]);
		expect(problems.map(({ kind, skill }) => [kind, skill])).toEqual([
			['unknown-family', 'nobody/gas'],
			['no-fault-in-area', 'a/stored']
		]);
		expect(skills.some(({ id }) => id === 'nobody/gas' || id === 'a/stored')).toBe(false);
	});
});

describe('a curriculum that does not hold together is told by file, line and key', () => {
	it('an area left out', () => {
		expect(problemsOf((all) => all.replace(/^ {2}gas:.*\n/m, ''))).toMatchObject([{ file: curriculumFile, key: 'areas.gas' }]);
	});

	it('a kind of drill that nothing makes', () => {
		expect(problemsOf((all) => all.replace('id: reading,', 'id: juggling,'))[0]).toMatchObject({ key: 'drills.0.id' });
	});

	it('a kind named twice', () => {
		expect(problemsOf((all) => all.replace('id: next-check,', 'id: reading,'))).toContainEqual(
			expect.objectContaining({ key: 'drills.1.id', says: '"reading" is there already' })
		);
	});

	it('what comes after itself, near or far, and in one family only', () => {
		expect(problemsOf((all) => all.replace('water-supply: { after: []', 'water-supply: { after: [air]')).map(({ key }) => key)).toContain(
			'areas.water-supply.after'
		);
		expect(
			problemsOf((all) =>
				all.replace('id: reading, name: Judge a reading, after: []', 'id: reading, name: Judge a reading, after: [ruled-out]')
			).map(({ key }) => key)
		).toEqual(['drills.0.after', 'drills.2.after']);
		const line = text.text.split('\n').findIndex((one) => one.startsWith('families:')) + 1;
		expect(problemsOf((all) => all.replace('families: {}', 'families:\n  a: { water-supply: { after: [sensing] } }'))).toContainEqual({
			file: curriculumFile,
			line: line + 1,
			key: 'families.a.water-supply.after',
			says: '"water-supply" comes after itself'
		});
	});

	it('cut points the wrong way round', () => {
		expect(problemsOf((all) => all.replace('least: 2, most: 3', 'least: 4, most: 3'))[0]).toMatchObject({ key: 'round.together' });
	});
});
