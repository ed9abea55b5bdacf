/**
 * Households and machines drawn from a pack. Each thing has a stream of its own, labelled, so that one seed gives the same household and
 * the same sound appliance whichever fault is put into it. Callouts and the evidence table both draw here: belief then knows the very
 * distribution that it is tested on.
 */
import type { Parameters } from '#shared/appliance/model.ts';
import { gases } from '#shared/physics/gas.ts';
import { chance, type Chance } from '#shared/quantity/random.ts';
import type { Pack } from '#shared/scenario/pack.ts';
import type { Fault } from '#shared/scenario/schema.ts';
import { applyFault } from '#shared/scenario/apply-fault.ts';
import type { GasName, Household, Machine } from './callout.ts';

/** What an author or a test fixes instead of leaving it to the draw. */
export interface Overrides {
	readonly gas?: GasName;
	/** By parameter key; applied to the sound machine, before the fault. */
	readonly parameters?: Parameters;
}

export interface Wanted {
	/** Id of a fault, or `none` for the healthy machine. Left out: drawn by weight times raised facts. */
	readonly fault?: string | undefined;
	/** 0 to 1. Left out: drawn evenly from the fault's span. */
	readonly severity?: number | undefined;
	/** Which draw of fault and severity for this household, from 0. */
	readonly draw?: number;
	/** Which draw of the household, from 0. */
	readonly home?: number;
	readonly overrides?: Overrides;
}

/** A fault that the pack does not have was asked for. */
export class UnknownFault extends Error {
	readonly fault: string;
	readonly known: readonly string[];

	constructor(fault: string, known: readonly string[]) {
		super(`fault: expected none or one of ${known.join(', ')}; came "${fault}"`);
		this.name = 'UnknownFault';
		this.fault = fault;
		this.known = known;
	}
}

/**
 * One machine of the pack's population.
 * @param seed any safe integer, >= 0
 * @throws UnknownFault
 */
export function sampleMachine(pack: Pack, seed: number, wanted: Wanted = {}): Machine {
	const { draw = 0, home = 0, overrides = {} } = wanted;
	const { household, sound } = sampleHome(pack, seed, home, overrides);
	const fault = faultFor(pack, household, wanted.fault, chance(seed, 'fault', home, draw));
	const severity =
		fault === null ? 0 : (wanted.severity ?? chance(seed, 'severity', home, draw).between(fault.severity.from, fault.severity.to));
	return { household, fault, severity, sound, faulty: fault === null ? sound : applyFault(sound, fault, severity) };
}

/** How likely a fault is in a household before anything is read, relative to others. */
export function priorWeight(fault: Pick<Fault, 'weight' | 'raised'>, facts: readonly string[]): number {
	return facts.reduce((weight, fact) => weight * (fault.raised[fact] ?? 1), fault.weight);
}

function sampleHome(pack: Pack, seed: number, home: number, overrides: Overrides): { household: Household; sound: Parameters } {
	const kind = chance(seed, 'household', home).pick(pack.households, (household) => household.weight);
	const maybe = Object.entries(kind.maybe).filter(([fact, likely]) => chance(seed, 'fact', fact, home).uniform() < likely);
	const facts = [...new Set([...kind.facts, ...maybe.map(([fact]) => fact)])];
	const household = { id: kind.id, says: kind.says, gas: overrides.gas ?? kind.gas, facts };

	const spans = { ...kind.parameters };
	for (const fact of pack.facts) if (facts.includes(fact.id)) Object.assign(spans, fact.parameters);
	const sound: Record<string, number> = {};
	for (const [key, { nominal, spread }] of Object.entries(pack.family.parameters)) {
		const stream = chance(seed, 'parameter', key, home);
		const span = spans[key];
		sound[key] = span ? stream.between(span.from, span.to) : nominal * (1 + spread * stream.normal());
	}
	if (overrides.gas !== undefined && overrides.gas !== kind.gas) Object.assign(sound, supplyPressure(pack, overrides.gas));
	return { household, sound: { ...sound, ...gasParameters(pack, household.gas), ...overrides.parameters } };
}

/** The family's number for the gas it burns, for a family that burns any. */
function gasParameters(pack: Pack, gas: GasName): Parameters {
	return 'gas.reference' in pack.family.parameters ? { 'gas.reference': Number(gas.slice(1)) } : {};
}

/** Another gas put in by hand comes at that gas's own pressure, as in a household of the pack that burns it. */
function supplyPressure(pack: Pack, gas: GasName): Parameters {
	const span = pack.households.find((household) => household.gas === gas)?.parameters['gas.meterMbar'];
	return { 'gas.meterMbar': span ? (span.from + span.to) / 2 : gases[gas].testMbar.nominal };
}

function faultFor(pack: Pack, household: Household, wanted: string | undefined, stream: Chance): Fault | null {
	if (wanted === 'none') return null;
	if (wanted === undefined) return stream.pick(pack.faults, (fault) => priorWeight(fault, household.facts));
	const fault = pack.faults.find(({ id }) => id === wanted);
	if (!fault)
		throw new UnknownFault(
			wanted,
			pack.faults.map(({ id }) => id)
		);
	return fault;
}
