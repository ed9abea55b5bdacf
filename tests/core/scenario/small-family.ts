/**
 * A small invented appliance with its data, for tests of the rooms that know no family: a heater with a leaky valve, a weak element and a
 * fuse. Each file is a text that a test may spoil.
 */
import type { ApplianceModel, Demand, Parameters } from '#shared/appliance/model.ts';
import { makePacks } from '#shared/scenario/make-pack.ts';
import type { Pack, Problem } from '#shared/scenario/pack.ts';
import type { Text } from '#shared/scenario/sheet.ts';

const define = (key: string) => ({ key, unit: '', says: key });

export const smallModel: ApplianceModel = {
	id: 'small',
	parameters: ['water.mainTempC', 'element.kw', 'valve.leak', 'supply.fuse', 'burner.coPpm'].map(define),
	quantities: ['tapTempC', 'displayLit', 'elementOhm', 'lockout', 'coPpm', 'co2Percent', 'leakLpm'].map(define),
	signals: [],
	runS: { none: 2, tap: 60, 'part-tap': 60, heating: 60, both: 60 },
	lockouts: ['none', 'overheat'],
	settle(p: Parameters, demand: Demand) {
		const heats = p['supply.fuse'] > 0.5 && (demand === 'tap' || demand === 'both');
		const riseK = heats ? (p['element.kw'] * (1 - p['valve.leak'])) / 0.35 : 0;
		return {
			tapTempC: p['water.mainTempC'] + riseK,
			displayLit: p['supply.fuse'],
			elementOhm: 52.9 / p['element.kw'],
			lockout: riseK > 60 ? 1 : 0,
			coPpm: heats ? p['burner.coPpm'] : 0,
			co2Percent: heats ? 9 : 0,
			leakLpm: p['valve.leak'] * 3
		};
	},
	trace() {
		throw new Error('this small model has no trace');
	}
};

export const smallTexts: Readonly<Record<string, string>> = {
	'families/small.yaml': `id: small
name: Small heater
short: Small
says: A heater for tests.
model: small
demands:
  - { id: none, name: Nothing, short: nothing on, minutes: 1 }
  - { id: tap, name: Tap open, short: tap open, minutes: 3 }
parameters:
  water.mainTempC: { nominal: 10 }
  element.kw: { nominal: 12, spread: 0.02 }
  valve.leak: { nominal: 0 }
  supply.fuse: { nominal: 1 }
  burner.coPpm: { nominal: 40, spread: 0.1 }
sequence:
  - { id: heats, demand: tap, does: It heats. }
indications:
  overheat: Too hot
`,
	'faults/small.yaml': `- id: element-weak
  area: heat-transfer
  says: Element burnt out in part
  because: Less heat goes into the water.
  changes: { element.kw: { times: 0.3 } }
  severity: { from: 0.3, to: 1 }
  weight: 3
  raised: { hard-water: 3 }
  shown: [element-ohms]
  cured: [fit-element]
  advise: [scale-control]
- id: valve-passing
  area: diverting
  says: Valve passes water by
  because: Part of the water is never heated.
  changes: { valve.leak: { to: 0.9 } }
  severity: { from: 0.4, to: 1 }
  weight: 2
  shown: [tap-temperature]
  cured: [fit-valve, clean-valve]
- id: fuse-blown
  area: electrical
  says: Fuse blown
  because: No supply.
  changes: { supply.fuse: { becomes: 0 } }
  severity: { from: 1, to: 1 }
  weight: 1
  shown: [display]
  cured: [fit-fuse]
`,
	'checks/small.yaml': `- id: tap-temperature
  name: Tap temperature
  how: A thermometer in the stream.
  misleads: Nothing much.
  way: measure
  place: tap
  area: heat-transfer
  under: [none, tap]
  reads: tapTempC
  unit: degC
  instrument: thermometer
  minutes: 1
  why: The water leaves at {tapTempC:1} degC.
- id: display
  name: Display
  how: Look at it.
  misleads: Nothing much.
  way: look
  place: board
  area: electrical
  under: [none, tap]
  reads: displayLit
  words: [ { word: dark, below: 0.5 }, { word: lit } ]
  noticed: true
  minutes: 0
  why: The fuse feeds it.
- id: tap-feel
  name: Feel of the tap
  how: A hand in the stream.
  misleads: Nothing much.
  way: feel
  place: tap
  area: heat-transfer
  under: [tap]
  reads: tapTempC
  words: [ { word: cold, below: 20 }, { word: tepid, below: 36 }, { word: hot } ]
  misjudged: 0.2
  noticed: true
  minutes: 0
  why: It is at {tapTempC} degC.
- id: element-ohms
  name: Element resistance
  how: A meter across it, isolated.
  misleads: Nothing much.
  way: measure
  place: board
  area: electrical
  under: [none]
  reads: elementOhm
  unit: ohm
  instrument: meter
  minutes: 4
  needs: [casing-off, electricity-off, proved-dead]
  why: Resistance is {elementOhm:1} ohm.
- id: ask-water
  name: Ask about the kettle
  how: Ask whether it furs up.
  misleads: Nothing much.
  way: ask
  place: tap
  area: user
  under: [none, tap]
  reads: fact.hard-water
  words: [ { word: it stays clean, below: 0.5 }, { word: it furs up } ]
  minutes: 1
  why: The water is what it is.
- id: gas-tightness
  name: Tightness
  how: A gauge.
  misleads: Nothing much.
  way: measure
  place: board
  area: gas
  under: [none]
  reads: leakLpm
  unit: l/min
  instrument: meter
  minutes: 5
  needs: [casing-off]
  why: Nothing leaks.
- id: flue-analysis
  name: Flue gas
  how: An analyser.
  misleads: Nothing much.
  way: measure
  place: board
  area: air
  under: [tap]
  reads: coPpm
  unit: ppm
  instrument: analyser
  minutes: 5
  why: It burns with {coPpm} ppm.
`,
	'checks/instruments.yaml': `- { id: thermometer, name: Thermometer, error: 0.3, resolution: 0.1, fetched: false }
- { id: meter, name: Meter, error: 0.01, errorShare: 0.01, resolution: 0.1, over: 40 }
- { id: analyser, name: Analyser, error: 2, resolution: 1 }
`,
	'parts/small.yaml': `parts:
  - { id: element, name: Element, price: { from: 40, to: 60 }, minutes: 30, place: board, needs: [casing-off, electricity-off, proved-dead, water-off], disturbs: [electrics, water] }
  - { id: valve, name: Valve, price: { from: 20, to: 30 }, minutes: 20, place: tap, needs: [gas-off, water-off], disturbs: [gas] }
  - { id: fuse, name: Fuse, price: { from: 1, to: 2 }, minutes: 5, place: board, needs: [electricity-off] }
remedies:
  - { id: clean-valve, name: Clean the valve, kind: clean, minutes: 15, place: tap, needs: [water-off], disturbs: [water, combustion] }
  - { id: advise-user, name: Explain the dial, kind: advise, minutes: 3, place: tap }
`,
	'drawings/small.yaml': `family: small
width: 100
height: 100
casing: { from: [0, 0], to: [100, 80] }
places:
  - { id: tap, name: Tap, symbol: tap, at: [50, 90], inside: false, says: The tap. }
  - { id: board, name: Board, symbol: board, at: [50, 20], inside: true, says: The board. }
runs: []
`,
	'households/homes.yaml': `households:
  - id: flat
    says: A flat.
    weight: 2
    facts: []
    maybe: { hard-water: 0.5 }
    parameters: { water.mainTempC: { from: 8, to: 14 } }
  - id: farm
    says: A farm.
    weight: 1
    gas: G31
    facts: [frost]
    parameters: { water.mainTempC: { from: 6, to: 10 } }
facts:
  - { id: hard-water, says: The kettle furs up. }
  - { id: frost, says: It freezes., parameters: { water.mainTempC: { from: 3, to: 5 } } }
`,
	'households/complaints.yaml': `- id: no-hot-water
  says: [It runs cold., Nothing hot.]
  when: [ { demand: tap, quantity: tapTempC, below: 20 } ]
  proves: { demand: tap, checks: [tap-temperature] }
- id: tepid
  says: [It is lukewarm.]
  when: [ { demand: tap, quantity: tapTempC, above: 15, below: 35 } ]
  proves: { demand: tap, checks: [tap-temperature, tap-feel] }
`,
	'rules/uk.yaml': `id: uk
name: Rules for tests
currency: '£'
labourPerHour: 60
returnMinutes: 60
fetchMinutes: 1
judgeMinutes: 0
proveMinutes: 4
leaveMinutes: 2
limits:
  co-ratio: { value: 0.004, unit: '', says: most, source: test }
  scald-temp: { value: 60, unit: degC, says: most, source: test }
steps:
  - { id: isolate-electricity, name: Isolate the electricity, how: Off., minutes: 1, sets: [electricity-off] }
  - { id: prove-dead, name: Prove dead, how: Proved., minutes: 2, sets: [proved-dead], needs: [electricity-off] }
  - { id: isolate-gas, name: Isolate the gas, how: Off., minutes: 1, sets: [gas-off] }
  - { id: isolate-water, name: Isolate the water, how: Off., minutes: 1, sets: [water-off] }
  - { id: open-casing, name: Take the casing off, how: Off., minutes: 2, sets: [casing-off] }
  - { id: close-casing, name: Put the casing back, how: On., minutes: 2, sets: [casing-on] }
  - { id: restore-water, name: Restore the water, how: On., minutes: 1, sets: [water-on] }
  - { id: restore-gas, name: Restore the gas, how: On., minutes: 1, sets: [gas-on] }
  - { id: restore-electricity, name: Restore the electricity, how: On., minutes: 1, sets: [electricity-on] }
safety:
  - { id: work-not-made-safe, says: Not made safe., why: Because., dangerous: false, marks: 8 }
  - { id: not-proved-dead, says: Not proved dead., why: Because., dangerous: false, marks: 6 }
  - { id: live-parts-touched, says: Live parts., why: Because., dangerous: true, marks: 25 }
  - { id: gas-opened-on, says: Gas on., why: Because., dangerous: true, marks: 25 }
  - { id: meter-on-live-circuit, says: Ohms on live., why: Because., dangerous: false, marks: 6 }
  - { id: left-bad-combustion, says: Bad flame., why: Because., dangerous: true, marks: 25 }
  - { id: left-gas-unproved, says: Gas unproved., why: Because., dangerous: true, marks: 25 }
  - { id: left-combustion-unproved, says: Flame unproved., why: Because., dangerous: false, marks: 10 }
  - { id: left-open, says: Left open., why: Because., dangerous: false, marks: 5 }
  - { id: left-scalding, says: Scalds., why: Because., dangerous: false, marks: 4 }
after: { gas: [gas-tightness, flue-analysis], combustion: [flue-analysis], water: [], electrics: [] }
advice:
  - { id: scale-control, says: Scale control. }
  - { id: advise-scald, says: It is hot. }
  - { id: advise-found, says: This was found. }
marks: { safety: 25, parts: 30, economy: 20, evidence: 10, finish: 15 }
proof: { proved: 0.8, likely: 0.4 }
weighing:
  soundPart: { guessed: 15, likely: 12, justified: 3 }
  luckyPart: { guessed: 12, likely: 6 }
  justifiedRegret: 0.05
  economy: { free: 0.1, all: 1.5 }
  sureness: { oneOff: 2, twoOff: 5 }
  judged: { stillIn: 0.1, surelyOut: 0.002, wronglyOut: 2, wronglyIn: 0.25 }
  finish: { proved: 0.4, checked: 0.2, cause: 0.2, told: 0.2 }
  untrue: 1
  recall: { laboured: 0.5, fluent: 0.1 }
`
};

/** By file: what is replaced by what. */
export type Spoiling = Readonly<Record<string, readonly (readonly [string, string])[]>>;

/** The small family's files, some of them spoilt. */
export function spoilt(changes: Spoiling): Text[] {
	return Object.entries(smallTexts).map(([name, text]) => ({
		name,
		text: (changes[name] ?? []).reduce((from, [what, by]) => {
			if (!from.includes(what)) throw new Error(`${name} holds no "${what}" to spoil`);
			return from.replace(what, by);
		}, text)
	}));
}

/** What is wrong with the small family once spoilt. */
export function problemsOf(changes: Spoiling): readonly Problem[] {
	return makePacks(spoilt(changes), { small: smallModel }).problems;
}

/** @throws Error when the small family does not hold together as it stands */
export function smallPack(changes: Spoiling = {}): Pack {
	const { packs, problems } = makePacks(spoilt(changes), { small: smallModel });
	const pack = packs.get('small');
	if (!pack) throw new Error(problems.map(({ file, line, key, says }) => `${file}:${line} ${key}: ${says}`).join('\n'));
	return pack;
}
