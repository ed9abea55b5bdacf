/**
 * A sat paper as a statement for a record store, shaped as the Experience API 1.0.3 has it. Who sat it is an account of this server with an
 * opaque name: no name of a person, no e-mail address and no number of the centre's leaves with it.
 * @see statement-rules.ts for the specification
 */
import type { Outcome } from './pass-rule.ts';
import { voided, type Statement } from './statement-rules.ts';

/** As the verbs of the ADL vocabulary are written, *from memory*. */
export const verbs = {
	passed: { id: 'http://adlnet.gov/expapi/verbs/passed', display: { 'en-GB': 'passed' } },
	failed: { id: 'http://adlnet.gov/expapi/verbs/failed', display: { 'en-GB': 'failed' } },
	voided: { id: voided, display: { 'en-GB': 'voided' } }
} as const;

/** Of the ADL vocabulary too, *from memory*. */
const assessment = 'http://adlnet.gov/expapi/activities/assessment';

/** What of a sat paper is told. */
export interface SatPaper {
	/** Of the statement, a UUID. */
	readonly id: string;
	/** Where this server is found: `https://practice.example`. */
	readonly origin: string;
	/** Opaque, of the line on the register. */
	readonly member: string;
	readonly paper: { readonly id: string; readonly title: string; readonly mode: string; readonly variant: number };
	/** The sitting as a UUID, the same whenever it is told again. */
	readonly registration: string;
	/** From its beginning to its end [ms]. */
	readonly tookMs: number;
	/** Its end, UTC: `2026-01-05T10:02:03.000Z`. */
	readonly endedAt: string;
	readonly outcome: Outcome;
	/** Hashes of the packs that its items were made from, and the local rules they were held to. */
	readonly packHashes: readonly string[];
	readonly rules: readonly string[];
}

/** @throws RangeError where the paper is out of no marks at all, which no score can be of */
export function statementOf(sat: SatPaper): Statement {
	const { origin, outcome, paper } = sat;
	if (!(outcome.outOf > 0)) throw new RangeError(`a paper is out of more than ${outcome.outOf} marks`);
	const term = (name: string) => `${origin}/terms/${name}`;
	return {
		id: sat.id,
		actor: { objectType: 'Agent', account: { homePage: origin, name: sat.member } },
		verb: outcome.passed ? verbs.passed : verbs.failed,
		object: {
			objectType: 'Activity',
			id: `${origin}/papers/${paper.id}`,
			definition: { name: { 'en-GB': paper.title }, type: assessment }
		},
		result: {
			score: { scaled: scaledOf(outcome), raw: outcome.got, min: 0, max: outcome.outOf },
			success: outcome.passed,
			completion: true,
			duration: durationOf(sat.tookMs)
		},
		context: {
			registration: sat.registration,
			platform: 'Provewell',
			language: 'en-GB',
			extensions: {
				[term('pack-hashes')]: [...sat.packHashes],
				[term('rules')]: [...sat.rules],
				[term('mode')]: paper.mode,
				[term('variant')]: paper.variant
			}
		},
		timestamp: sat.endedAt
	};
}

/**
 * Takes back a statement that was told before: its marks were unlocked and are others now.
 * @param id  of this statement, a UUID
 * @param at  UTC: `2026-01-05T10:02:03.000Z`
 */
export function voidingOf(id: string, told: string, origin: string, at: string): Statement {
	return {
		id,
		actor: { objectType: 'Agent', account: { homePage: origin, name: 'server' } },
		verb: verbs.voided,
		object: { objectType: 'StatementRef', id: told },
		timestamp: at
	};
}

/**
 * An ISO 8601 duration to the second: `PT1H2M3S`.
 * @param ms >= 0; a clock set back counts as no time
 */
export function durationOf(ms: number): string {
	const whole = Math.max(0, Math.round(ms / 1000));
	const parts = [
		[Math.floor(whole / 3600), 'H'],
		[Math.floor(whole / 60) % 60, 'M'],
		[whole % 60, 'S']
	] as const;
	const said = parts.filter(([count]) => count > 0).map(([count, unit]) => `${count}${unit}`);
	return `PT${said.join('') || '0S'}`;
}

/** Share of all marks, to four places. */
const scaledOf = ({ got, outOf }: Outcome) => Number((got / outOf).toFixed(4));
