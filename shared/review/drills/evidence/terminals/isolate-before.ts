/** Which steps make a piece of work safe and possible, from the site as it is found. */
import { breachesOf } from '#shared/callout/needs.ts';
import { planDemand, planRemedy, planCheck, type Situation } from '#shared/diagnosis/plan.ts';
import type { Pack, Remedy } from '#shared/scenario/pack.ts';
import type { Check, SafeStep, SiteState } from '#shared/scenario/schema.ts';
import { openingSite, safeStates, undone } from '#shared/scenario/site.ts';
import type { Generator, Ground } from '../../drill.ts';
import { severalDrill, type Tick } from '../answers.ts';
import { firstOf, shuffled } from '../../draw.ts';
import { packOf } from '../ground.ts';
import { sentence } from '../words.ts';

const id = 'isolate-before';
const quickS = 25;

interface Work {
	readonly name: string;
	readonly needs: readonly SiteState[];
	readonly disturbs: Remedy['disturbs'];
	/** Ids of the steps that lead there. */
	readonly steps: ReadonlySet<string>;
	readonly caution: string | null;
}

export const isolateBefore: Generator = {
	id,
	drill: 'terminals',
	needs: 'family',
	offers: ({ pack }: Ground) => pack !== null && worksOf(pack).length > 0,
	make(ground, seed) {
		const pack = packOf(ground);
		const { work, ticks } = firstOf(id, seed, (stream) => {
			const works = worksOf(pack);
			if (works.length === 0) return null;
			const work = stream.pick(works);
			return { work, ticks: shuffled(stream, openings(pack)).map((step) => tickOf(pack, work, step)) };
		});
		return severalDrill(
			{
				drill: 'terminals',
				family: pack.family.id,
				asks: 'You come to the appliance as it is found: casing on, all supplies on. Which of these must be done before this work?',
				given: [{ name: 'Work', value: work.name }]
			},
			ticks,
			{ worked: workedOf(pack, work), quickS }
		);
	}
};

const found: Situation = { demand: 'none', site: new Set(openingSite), fetched: new Set() };

/** Steps that open up or isolate; those that put back are not asked about. */
const openings = (pack: Pack): SafeStep[] => pack.rules.steps.filter(({ sets }) => sets.some((state) => !openingSite.includes(state)));

const known = new WeakMap<Pack, readonly Work[]>();

/** Remedies, and checks that need something opened or isolated. */
function worksOf(pack: Pack): readonly Work[] {
	let works = known.get(pack);
	if (!works)
		known.set(
			pack,
			(works = [...pack.remedies.flatMap((one) => remedyWork(pack, one)), ...pack.checks.flatMap((one) => checkWork(pack, one))])
		);
	return works;
}

function remedyWork(pack: Pack, remedy: Remedy): Work[] {
	const plan = planRemedy(pack, found, remedy);
	if (!plan) return [];
	const { name, needs, disturbs, caution = null } = remedy;
	return [{ name, needs, disturbs, steps: stepsOf(plan.actions), caution }];
}

function checkWork(pack: Pack, check: Check): Work[] {
	const [demand] = check.under;
	const plan = planCheck(pack, found, check, demand);
	if (!plan || !planDemand(pack, found, demand) || check.way === 'ask' || check.noticed) return [];
	const steps = stepsOf(plan.actions);
	return steps.size > 0
		? [{ name: `${check.name}. ${check.how}`, needs: check.needs, disturbs: [], steps, caution: check.caution ?? null }]
		: [];
}

const stepsOf = (actions: readonly { readonly kind: string; readonly step?: string }[]): ReadonlySet<string> =>
	new Set(actions.flatMap(({ step }) => step ?? []));

function tickOf(pack: Pack, work: Work, step: SafeStep): Tick {
	const right = work.steps.has(step.id);
	const breached = right ? breachedWithout(pack, work, step) : [];
	const [worst] = [...breached].sort((a, b) => Number(b.dangerous) - Number(a.dangerous));
	return {
		id: step.id,
		says: step.name,
		right,
		grave: worst?.dangerous ?? false,
		misconception: right ? (worst ? `${worst.says} ${worst.why}` : 'Without it the work cannot be reached.') : needlessWords(work, step)
	};
}

/** The rules that the work breaches when all is done but this step. */
function breachedWithout(pack: Pack, { needs, disturbs }: Work, step: SafeStep) {
	const site = new Set<SiteState>([...openingSite, ...needs].filter((state) => !step.sets.includes(state)));
	for (const need of needs) if (!step.sets.includes(need)) for (const gone of undone[need]) site.delete(gone);
	const breaches: readonly string[] = breachesOf({ needs, disturbs }, site);
	return pack.rules.safety.filter((rule) => breaches.includes(rule.id));
}

function needlessWords({ needs }: Work, { sets, name }: SafeStep): string {
	const cuts = sets.some((state) => undone[state].some((gone) => needs.includes(gone)));
	if (cuts) return `${name}: then there is nothing to be read or set, because this work needs that supply on.`;
	return sets.some((state) => safeStates.includes(state))
		? 'Isolated without need: this work does not open it, and each supply put back is one more thing to prove.'
		: 'Opened without need: this is reached from outside.';
}

function workedOf(pack: Pack, work: Work): string[] {
	const steps = openings(pack);
	const first = steps.filter(({ id }) => work.steps.has(id)).map(({ name, how }) => `${name}: ${how}`);
	const rules = new Set(steps.filter(({ id }) => work.steps.has(id)).flatMap((step) => breachedWithout(pack, work, step)));
	return [
		...(first.length > 0 ? first : ['Nothing has to be opened or isolated for this.']),
		...[...rules].map(({ why }) => sentence(why)),
		...(work.caution ? [work.caution] : []),
		"The appliance's own instructions and local codes come first."
	];
}
