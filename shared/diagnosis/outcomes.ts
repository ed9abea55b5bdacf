/**
 * What each check could read, in a few coarse outcomes, so that the value of every check can be worked out at once.
 *
 * A number's outcomes are bands between quantiles and between even steps of its reach. Each row's reading is spread over three points
 * (Gauss-Hermite of order three: the true value and root three standard deviations to either side, weights 2/3, 1/6, 1/6), so that a
 * check does not look as if it told apart what its instrument cannot.
 */
import type { Pack } from '#shared/scenario/pack.ts';
import { tableFacts } from './column-facts.ts';
import type { ColumnFacts } from './column-facts.ts';
import type { EvidenceTable } from './evidence.ts';
import { blunderChance, misjudge } from './likelihood.ts';
import { enoughRows } from './suspicion.ts';

const quantiles = 8;
const steps = 8;
const reachOfPoints = Math.sqrt(3);
const middle = 2 / 3;
const side = 1 / 6;
/** Rows with less of the belief than this are passed over in the search for the next check. */
const negligible = 1e-6;

interface Outcomes {
	readonly facts: ColumnFacts;
	/** Lower bounds of the outcomes after the first. */
	readonly bounds: readonly number[];
	/** Outcome of each row's three points: low, middle, high. */
	readonly points: Uint8Array;
}

const cache = new WeakMap<EvidenceTable, readonly Outcomes[]>();

function outcomesOf(pack: Pack, table: EvidenceTable): readonly Outcomes[] {
	let known = cache.get(table);
	if (!known) {
		known = tableFacts(pack, table).all.map((facts) => layOut(facts, table));
		cache.set(table, known);
	}
	return known;
}

function layOut(facts: ColumnFacts, table: EvidenceTable): Outcomes {
	const { values, smoothing } = facts.column;
	const bounds = facts.gauge.bands ?? bandsOf(facts);
	const points = new Uint8Array(table.rows * 3);
	for (let row = 0; row < table.rows; row++) {
		const value = values[row];
		const sd = value < facts.gauge.over ? Math.hypot(facts.gauge.sdAt(value), smoothing[table.fault[row]]) : 0;
		for (let point = 0; point < 3; point++) points[row * 3 + point] = outcomeAt(bounds, value + (point - 1) * reachOfPoints * sd);
	}
	return { facts, bounds, points };
}

/** Edges at quantiles of the values, at even steps between their ends, and one for over range where that is met. */
function bandsOf({ column, gauge, low, high, passesOver }: ColumnFacts): number[] {
	const sorted = column.values.filter((value) => value < gauge.over).sort();
	const edges = new Set<number>();
	if (sorted.length > 0) for (let i = 1; i < quantiles; i++) edges.add(sorted[Math.floor((i / quantiles) * sorted.length)]);
	for (let i = 1; i < steps; i++) edges.add(low + ((high - low) * i) / steps);
	if (passesOver) edges.add(Number.isFinite(gauge.over) ? gauge.over : high + 1);
	return [...edges].filter((edge) => edge > low).sort((a, b) => a - b);
}

function outcomeAt(bounds: readonly number[], value: number): number {
	let outcome = 0;
	while (outcome < bounds.length && value >= bounds[outcome]) outcome++;
	return outcome;
}

/** Outcomes of one check under one demand at a belief: the probability of each outcome together with each fault. */
export interface Prospect {
	readonly facts: ColumnFacts;
	readonly joint: readonly Float64Array[];
}

/**
 * What every column could read at this belief.
 * @param weights of the rows, summing to 1
 * @param open    faults still of interest; what the rest could read is left out, and their mass with it
 */
export function prospects(pack: Pack, table: EvidenceTable, weights: Float64Array, open: readonly boolean[]): Prospect[] {
	const faults = new Float64Array(pack.faults.length);
	for (let row = 0; row < table.rows; row++) if (open[table.fault[row]]) faults[table.fault[row]] += weights[row];
	const shares = sharesOfRows(pack, table, weights, faults);
	const active = Int32Array.from(rowsAbove(shares, negligible));
	const seen = new Float64Array(pack.faults.length);
	for (const row of active) seen[table.fault[row]] += shares[row];
	// The rows passed over count as the others of their fault: mass that got lost would look like a saving.
	for (const row of active) shares[row] *= faults[table.fault[row]] / seen[table.fault[row]];
	return outcomesOf(pack, table).map((outcomes) => {
		return { facts: outcomes.facts, joint: blur(outcomes.facts, spread(outcomes, table, shares, active, faults.length), faults) };
	});
}

/**
 * Weights of rows for looking ahead. Where few machines are left to speak for a fault, they speak for it in part only, and the fault as a
 * whole for the rest: otherwise each check would seem to tell apart the very machines that happened to be sampled.
 */
function sharesOfRows(pack: Pack, table: EvidenceTable, weights: Float64Array, faults: Float64Array): Float64Array {
	const { from, to } = tableFacts(pack, table);
	const shares = new Float64Array(table.rows);
	for (let fault = 0; fault < faults.length; fault++) {
		if (faults[fault] <= negligible) continue;
		let squares = 0;
		let prior = 0;
		for (let row = from[fault]; row < to[fault]; row++) {
			squares += weights[row] * weights[row];
			prior += table.prior[row];
		}
		const effective = (faults[fault] * faults[fault]) / squares;
		const own = effective / (effective + enoughRows);
		for (let row = from[fault]; row < to[fault]; row++) {
			shares[row] = own * weights[row] + (1 - own) * faults[fault] * (table.prior[row] / prior);
		}
	}
	return shares;
}

function rowsAbove(weights: Float64Array, least: number): number[] {
	const rows: number[] = [];
	for (let row = 0; row < weights.length; row++) if (weights[row] > least) rows.push(row);
	return rows;
}

function spread(
	{ points, bounds }: Outcomes,
	table: EvidenceTable,
	weights: Float64Array,
	rows: Int32Array,
	faults: number
): Float64Array[] {
	const count = bounds.length + 1;
	const flat = new Float64Array(count * faults);
	for (let i = 0; i < rows.length; i++) {
		const row = rows[i];
		const weight = weights[row];
		const fault = table.fault[row];
		const at = row * 3;
		flat[points[at] * faults + fault] += weight * side;
		flat[points[at + 1] * faults + fault] += weight * middle;
		flat[points[at + 2] * faults + fault] += weight * side;
	}
	return Array.from({ length: count }, (_, outcome) => flat.subarray(outcome * faults, (outcome + 1) * faults));
}

/** Chance of each outcome of each column within each fault, all its machines alike: `[column].given[outcome][fault]`. */
export function outcomesByFault(
	pack: Pack,
	table: EvidenceTable
): { readonly facts: ColumnFacts; readonly given: readonly Float64Array[] }[] {
	const { from, to } = tableFacts(pack, table);
	const weights = Float64Array.from(table.fault, (fault) => 1 / (to[fault] - from[fault]));
	return prospects(
		pack,
		table,
		weights,
		pack.faults.map(() => true)
	).map(({ facts, joint }) => ({ facts, given: joint }));
}

/** Misjudged words and blundered readings. */
function blur(facts: ColumnFacts, joint: Float64Array[], faults: Float64Array): Float64Array[] {
	const count = joint.length;
	for (let fault = 0; fault < faults.length; fault++) {
		if (faults[fault] === 0) continue;
		const told = misjudge(
			joint.map((mass) => mass[fault]),
			facts.gauge.misjudged
		);
		const heard = told.some((chance) => chance > 0) ? 1 - blunderChance : 0;
		for (let outcome = 0; outcome < count; outcome++) {
			joint[outcome][fault] = heard * told[outcome] + ((1 - heard) * faults[fault]) / count;
		}
	}
	return joint;
}
