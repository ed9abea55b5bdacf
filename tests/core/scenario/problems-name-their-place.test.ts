import { describe, expect, it } from 'vitest';
import { makePacks } from '#shared/scenario/make-pack.ts';
import { problemsOf, smallModel, smallPack, smallTexts, spoilt, type Spoiling } from './small-family.ts';

/** One slip of the pen, and where and how its author is told. */
interface Slip {
	readonly slip: string;
	readonly spoiling: Spoiling;
	readonly file: string;
	/** A text that stands on the line that must be named. */
	readonly lineWith: string;
	readonly key: string;
	readonly says: RegExp;
}

const at = (file: string, what: string, by: string): Spoiling => ({ [file]: [[what, by]] });

const point = (id: string) => `      - { id: ${id}, name: Pin ${id}, wire: signal }\n`;
const twoPins = `  terminals:
    points:
${['a', 'b', 'c'].map(point).join('')}    between: [a, b]
    others: [ { between: [b, c], reads: open } ]
`;

const slips: readonly Slip[] = [
	// Shapes
	{
		slip: 'a number written as a word',
		spoiling: at('faults/small.yaml', 'weight: 3', 'weight: many'),
		...{ file: 'faults/small.yaml', lineWith: 'weight: many', key: '0.weight', says: /expected number, came "many"/ }
	},
	{
		slip: 'a key that nobody reads',
		spoiling: at('faults/small.yaml', '  weight: 2', '  weigth: 2'),
		...{ file: 'faults/small.yaml', lineWith: 'weigth: 2', key: '1.weigth', says: /no such key/ }
	},
	{
		slip: 'a key left out',
		spoiling: at('faults/small.yaml', '  weight: 2\n', ''),
		...{ file: 'faults/small.yaml', lineWith: 'id: valve-passing', key: '1.weight', says: /missing: expected number/ }
	},
	{
		slip: 'an area that is none',
		spoiling: at('faults/small.yaml', 'area: diverting', 'area: plumbing'),
		...{ file: 'faults/small.yaml', lineWith: 'area: plumbing', key: '1.area', says: /expected one of .*diverting.*; came "plumbing"/ }
	},
	{
		slip: 'a change of no known kind',
		spoiling: at('faults/small.yaml', '{ to: 0.9 }', '{ upTo: 0.9 }'),
		...{
			file: 'faults/small.yaml',
			lineWith: 'upTo',
			key: '1.changes.valve.leak',
			says: /one of \{ to: number \}, \{ times: number \}, \{ becomes: number \}/
		}
	},
	{
		slip: 'a span upside down',
		spoiling: at('faults/small.yaml', '{ from: 0.4, to: 1 }', '{ from: 1, to: 0.4 }'),
		...{ file: 'faults/small.yaml', lineWith: 'from: 1, to: 0.4', key: '1.severity', says: /from must not be above to/ }
	},
	{
		slip: 'an id with capitals',
		spoiling: at('checks/small.yaml', 'id: display', 'id: Display'),
		...{ file: 'checks/small.yaml', lineWith: 'id: Display', key: '1.id', says: /lower-case words joined by hyphens.*"Display"/ }
	},
	{
		slip: 'text that is no YAML',
		spoiling: at('parts/small.yaml', 'remedies:', 'remedies: ]'),
		...{ file: 'parts/small.yaml', lineWith: 'remedies: ]', key: '', says: /not readable as YAML/ }
	},
	{
		slip: 'one key twice',
		spoiling: at('families/small.yaml', 'short: Small', 'short: Small\nshort: Smaller'),
		...{ file: 'families/small.yaml', lineWith: 'short: Smaller', key: '', says: /unique/i }
	},
	// References
	{
		slip: 'a parameter that the model lacks',
		spoiling: at('families/small.yaml', 'valve.leak: { nominal: 0 }', 'valve.leak: { nominal: 0 }\n  valve.leek: { nominal: 0 }'),
		...{
			file: 'families/small.yaml',
			lineWith: 'valve.leek',
			key: 'parameters.valve.leek',
			says: /parameter of the model "small"; came "valve.leek" \(near it: valve.leak\)/
		}
	},
	{
		slip: 'a parameter that the data lacks',
		spoiling: at('families/small.yaml', '  valve.leak: { nominal: 0 }\n', ''),
		...{ file: 'families/small.yaml', lineWith: 'parameters:', key: 'parameters', says: /reads "valve.leak", which is not given/ }
	},
	{
		slip: 'a shutdown not put into words',
		spoiling: at('families/small.yaml', 'overheat: Too hot', 'overheated: Too hot'),
		...{ file: 'families/small.yaml', lineWith: 'indications:', key: 'indications', says: /"overheat", which is not put into words/ }
	},
	{
		slip: 'a model that is not in stock',
		spoiling: at('families/small.yaml', 'model: small', 'model: large'),
		...{ file: 'families/small.yaml', lineWith: 'model: large', key: 'model', says: /expected one of small; came "large"/ }
	},
	{
		slip: 'a fault twice',
		spoiling: at('faults/small.yaml', 'id: valve-passing', 'id: element-weak'),
		...{ file: 'faults/small.yaml', lineWith: 'id: element-weak', key: '1.id', says: /already taken/ }
	},
	{
		slip: 'a change of a parameter that is none',
		spoiling: at('faults/small.yaml', 'element.kw: { times', 'element.kilowatt: { times'),
		...{ file: 'faults/small.yaml', lineWith: 'element.kilowatt', key: '0.changes.element.kilowatt', says: /parameter of the model/ }
	},
	{
		slip: 'a cure that is none',
		spoiling: at('faults/small.yaml', 'cured: [fit-fuse]', 'cured: [fit-fuze]'),
		...{
			file: 'faults/small.yaml',
			lineWith: 'fit-fuze',
			key: '2.cured.0',
			says: /a remedy, or "fit-" and a part; came "fit-fuze" \(near it: fit-/
		}
	},
	{
		slip: 'raised by no known fact',
		spoiling: at('faults/small.yaml', 'hard-water: 3', 'chalky-water: 3'),
		...{ file: 'faults/small.yaml', lineWith: 'chalky-water', key: '0.raised.chalky-water', says: /household fact/ }
	},
	{
		slip: 'advice that the rules lack',
		spoiling: at('faults/small.yaml', '[scale-control]', '[descaler]'),
		...{ file: 'faults/small.yaml', lineWith: '[descaler]', key: '0.advise.0', says: /advice of the rules/ }
	},
	{
		slip: 'alike without a remedy in common',
		spoiling: at('faults/small.yaml', 'cured: [fit-fuse]', 'cured: [fit-fuse]\n  alike: [element-weak]'),
		...{ file: 'faults/small.yaml', lineWith: 'alike:', key: '2.alike.0', says: /shares no remedy/ }
	},
	{
		slip: 'a severity of nought',
		spoiling: at('faults/small.yaml', '{ from: 0.4, to: 1 }', '{ from: 0, to: 1 }'),
		...{ file: 'faults/small.yaml', lineWith: 'from: 0, to: 1', key: '1.severity', says: /above 0/ }
	},
	{
		slip: 'a check at no place',
		spoiling: at('checks/small.yaml', 'place: tap', 'place: bath'),
		...{ file: 'checks/small.yaml', lineWith: 'place: bath', key: '0.place', says: /a place of the drawing; came "bath"/ }
	},
	{
		slip: 'a check that reads nothing known',
		spoiling: at('checks/small.yaml', 'reads: tapTempC', 'reads: tapTempF'),
		...{ file: 'checks/small.yaml', lineWith: 'reads: tapTempF', key: '0.reads', says: /quantity of the model.*near it: tapTempC/ }
	},
	{
		slip: 'a check that asks for no known fact',
		spoiling: at('checks/small.yaml', 'fact.hard-water', 'fact.limescale'),
		...{ file: 'checks/small.yaml', lineWith: 'fact.limescale', key: '4.reads', says: /"fact." and a household fact/ }
	},
	{
		slip: 'a check under a demand that the family lacks',
		spoiling: at('checks/small.yaml', 'under: [none, tap]', 'under: [none, heating]'),
		...{ file: 'checks/small.yaml', lineWith: 'under: [none, heating]', key: '0.under.1', says: /demand of the family/ }
	},
	{
		slip: 'an instrument that is not in the van',
		spoiling: at('checks/small.yaml', 'instrument: analyser', 'instrument: analyzer'),
		...{
			file: 'checks/small.yaml',
			lineWith: 'analyzer',
			key: '6.instrument',
			says: /an instrument; came "analyzer" \(near it: analyser\)/
		}
	},
	{
		slip: 'words whose bands fall',
		spoiling: at('checks/small.yaml', 'word: tepid, below: 36', 'word: tepid, below: 16'),
		...{ file: 'checks/small.yaml', lineWith: 'below: 16', key: '2.words', says: /bands of words must rise/ }
	},
	{
		slip: 'a last band that is not open',
		spoiling: at('checks/small.yaml', '{ word: hot }', '{ word: hot, below: 90 }'),
		...{ file: 'checks/small.yaml', lineWith: 'below: 90', key: '2.words', says: /must be open/ }
	},
	{
		slip: 'words and an instrument both',
		spoiling: at('checks/small.yaml', '  misjudged: 0.2', '  misjudged: 0.2\n  instrument: thermometer'),
		...{ file: 'checks/small.yaml', lineWith: 'word: tepid', key: '2.words', says: /not both/ }
	},
	{
		slip: 'a reason that names no quantity',
		spoiling: at('checks/small.yaml', '{elementOhm:1}', '{elementOhms:1}'),
		...{ file: 'checks/small.yaml', lineWith: 'elementOhms', key: '3.why', says: /"\{elementOhms\}" is no quantity/ }
	},
	{
		slip: 'reasons that leave a word without one',
		spoiling: at('checks/small.yaml', 'why: It is at {tapTempC} degC.', 'why: [{ when: cold, says: Not lit. }, { when: hot, says: Lit. }]'),
		...{ file: 'checks/small.yaml', lineWith: 'Not lit', key: '2.why', says: /"tepid" needs just one reason/ }
	},
	{
		slip: 'reasons for numbers that do not rise',
		spoiling: at('checks/small.yaml', 'why: Resistance is {elementOhm:1} ohm.', 'why: [{ says: Whole. }, { below: 5, says: Open. }]'),
		...{ file: 'checks/small.yaml', lineWith: 'Whole', key: '3.why', says: /"below" that rises/ }
	},
	{
		slip: 'a live check without a caution',
		spoiling: at('checks/small.yaml', '  instrument: analyser', '  instrument: analyser\n  live: true'),
		...{ file: 'checks/small.yaml', lineWith: 'live: true', key: '6.live', says: /caution/ }
	},
	{
		slip: 'gas work that needs no gas off',
		spoiling: at('parts/small.yaml', 'needs: [gas-off, water-off]', 'needs: [water-off]'),
		...{ file: 'parts/small.yaml', lineWith: 'id: valve', key: 'parts.1.needs', says: /must need gas-off/ }
	},
	{
		slip: 'a need that no step brings about',
		spoiling: at('rules/uk.yaml', 'sets: [casing-off]', 'sets: [casing-on]'),
		...{
			file: 'checks/small.yaml',
			lineWith: 'needs: [casing-off, electricity-off, proved-dead]',
			key: '3.needs.0',
			says: /a step of the rules brings about; came "casing-off"/
		}
	},
	{
		slip: 'a household with no known fact',
		spoiling: at('households/homes.yaml', 'facts: [frost]', 'facts: [freezing]'),
		...{ file: 'households/homes.yaml', lineWith: 'facts: [freezing]', key: 'households.1.facts.0', says: /household fact/ }
	},
	{
		slip: 'a household that sets what the model lacks',
		spoiling: at('households/homes.yaml', 'water.mainTempC: { from: 6', 'main.tempC: { from: 6'),
		...{ file: 'households/homes.yaml', lineWith: 'main.tempC', key: 'households.1.parameters.main.tempC', says: /parameter of the model/ }
	},
	{
		slip: 'a complaint of no known quantity',
		spoiling: at('households/complaints.yaml', 'quantity: tapTempC, below: 20', 'quantity: tapHeat, below: 20'),
		...{ file: 'households/complaints.yaml', lineWith: 'tapHeat', key: '0.when.0.quantity', says: /quantity of the model/ }
	},
	{
		slip: 'a complaint without a bound',
		spoiling: at('households/complaints.yaml', 'quantity: tapTempC, below: 20', 'quantity: tapTempC'),
		...{ file: 'households/complaints.yaml', lineWith: 'quantity: tapTempC }', key: '0.when.0', says: /"above" or "below"/ }
	},
	{
		slip: 'a proof that would need the casing off',
		spoiling: at('households/complaints.yaml', 'checks: [tap-temperature, tap-feel]', 'checks: [element-ohms]'),
		...{
			file: 'households/complaints.yaml',
			lineWith: 'element-ohms',
			key: '1.proves.checks.0',
			says: /needs casing-off, but a repair is proved with everything restored/
		}
	},
	{
		slip: 'terminals of an instrument that measures nothing known',
		spoiling: at('checks/small.yaml', '  reads: elementOhm\n', `  reads: elementOhm\n${twoPins}`),
		...{ file: 'checks/small.yaml', lineWith: 'terminals:', key: '3.terminals', says: /an instrument that says what it measures/ }
	},
	{
		slip: 'two test points that nothing is said of',
		spoiling: at('checks/small.yaml', '  reads: elementOhm\n', `  reads: elementOhm\n${twoPins}`),
		...{ file: 'checks/small.yaml', lineWith: 'others:', key: '3.terminals.others', says: /between a and c/ }
	},
	{
		slip: 'a test point that is not there',
		spoiling: at('checks/small.yaml', '  reads: elementOhm\n', `  reads: elementOhm\n${twoPins.replace('[b, c]', '[b, d]')}`),
		...{ file: 'checks/small.yaml', lineWith: '[b, d]', key: '3.terminals.others.0.between', says: /two different points of the check/ }
	},
	{
		slip: 'a safety rule left out',
		spoiling: at('rules/uk.yaml', 'id: left-open', 'id: left-ajar'),
		...{ file: 'rules/uk.yaml', lineWith: 'safety:', key: 'safety', says: /"left-open" is expected/ }
	},
	{
		slip: 'a check after work that is none',
		spoiling: at('rules/uk.yaml', 'gas: [gas-tightness', 'gas: [let-by'),
		...{ file: 'rules/uk.yaml', lineWith: 'let-by', key: 'after.gas.0', says: /a check of the family/ }
	},
	{
		slip: 'marks that are not a hundred',
		spoiling: at('rules/uk.yaml', 'parts: 30', 'parts: 40'),
		...{ file: 'rules/uk.yaml', lineWith: 'marks: { safety: 25, parts: 40', key: 'marks', says: /sum to 100; they sum to 110/ }
	}
];

describe('the small family as it stands', () => {
	it('holds together', () => {
		expect(problemsOf({})).toEqual([]);
	});
});

describe('a slip of the pen is told by file, line and key', () => {
	it.each(slips)('$slip', ({ spoiling, file, lineWith, key, says }) => {
		const problems = problemsOf(spoiling);
		const told = problems.filter((problem) => problem.file === file && problem.key === key && says.test(problem.says));
		expect(told, JSON.stringify(problems, null, 1)).not.toEqual([]);
		const text = spoilt(spoiling).find(({ name }) => name === file)!.text;
		expect(text.split('\n')[told[0]!.line - 1]).toContain(lineWith);
	});
});

describe('files', () => {
	it('that are missing are named', () => {
		const texts = Object.entries(smallTexts)
			.filter(([name]) => name !== 'checks/small.yaml')
			.map(([name, text]) => ({ name, text }));
		expect(makePacks(texts, { small: smallModel }).problems).toEqual([
			{ file: 'checks/small.yaml', line: 1, key: '', says: expect.stringContaining('missing') }
		]);
	});

	it('of a broken family leave the others whole', () => {
		const broken = ['families', 'faults', 'checks', 'parts', 'drawings'].map((folder) => ({
			name: `${folder}/other.yaml`,
			text: smallTexts[`${folder}/small.yaml`]!.replace('id: small', 'id: other').replace('family: small', 'family: elsewhere')
		}));
		const made = makePacks([...spoilt({}), ...broken], { small: smallModel });
		expect([...made.packs.keys()]).toEqual(['small']);
		expect(made.problems).toEqual([{ file: 'drawings/other.yaml', line: 1, key: 'family', says: expect.stringContaining('"other"') }]);
	});
});

describe('the hash of a pack', () => {
	it('is the same for the same content, however it is laid out', () => {
		const reordered = smallPack({
			'faults/small.yaml': [['  area: diverting\n  says: Valve passes water by\n', '  says: Valve passes water by\n  area: diverting\n']]
		});
		expect(reordered.hash).toBe(smallPack().hash);
	});

	it('changes with any content', () => {
		expect(smallPack({ 'faults/small.yaml': [['weight: 2', 'weight: 2.5']] }).hash).not.toBe(smallPack().hash);
	});

	it('changes with the physics', () => {
		const warmer = {
			...smallModel,
			settle: (...given: Parameters<typeof smallModel.settle>) => ({ ...smallModel.settle(...given), coPpm: 41 })
		};
		const { packs } = makePacks(spoilt({}), { small: warmer });
		expect(packs.get('small')!.hash).not.toBe(smallPack().hash);
	});
});
