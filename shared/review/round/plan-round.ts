/**
 * Tonight's round. What is due comes first, the least remembered before the rest; then new skills, where minutes are spare; then, where
 * minutes are left, what is least remembered of the rest is brought forward. What does not fit waits for the nights to come, so a missed
 * week is worked off over several nights, the worst first, and nothing is begun meanwhile.
 *
 * In which order known callouts stand is drawn: by recall it would tell the area of each hidden fault to whoever looks up their recall.
 *
 * No two items of one fault area, whatever the family, and no two of one kind of drill follow each other; nor do two sums, of whatever,
 * where anything else can stand between them. Only in the round in which a
 * skill is begun do its first two or three callouts come together.
 * @see De Croock, van Merrienboer and Paas 1998; van Merrienboer, de Croock and Jelsma 1997: faults in random order made practice slower
 * and worse and diagnosis of new faults better. How many come together first is a judgement of ours
 */
import { chance, type Chance } from '#shared/quantity/random.ts';
import { shuffled } from '../drills/draw.ts';
import { dayOf } from '../memory/learner-day.ts';
import { leftOver } from './left-over.ts';
import { minutesOf } from './minutes-of.ts';
import { mixed } from './mix.ts';
import { mostNew, openSkills, type Kept } from './new-skills.ts';
import { feelOf, isPlayable, kindOf, type Night } from './night.ts';
import type { Round } from './round.ts';
import { isDue, recallAt } from '../memory/schedule.ts';
import type { Skill } from '../skill.ts';
import { whatToPlay, type Wanted } from './what-to-play.ts';

/** Items of one skill that stay together: one, or the first callouts of a new skill. */
interface Group extends Wanted {
	readonly count: number;
	/** Null for a skill that is begun. */
	readonly recall: number | null;
}

/** A known skill on this night. */
interface KnownSkill extends Kept {
	readonly skill: Skill;
	readonly recall: number;
}

/** @returns a round that passes the minutes by no more than its last item; empty only where there is nothing to play */
export function planRound(night: Night): Round {
	const known = knownSkills(night);
	const due = known.filter(({ memory }) => isDue(memory, night.now)).map((one) => group(one, 'due'));
	const fresh = newGroups(night, known);
	const groups = inOrder([...due, ...fresh, ...early(night, known, fresh.length > 0)], night);
	const wanted = groups.flatMap((one) => Array.from({ length: one.count }, () => one));
	return {
		items: whatToPlay(wanted, night),
		left: leftOver(
			known.map(({ memory }) => memory),
			new Set(groups.map(({ skill }) => skill.id)),
			night.now
		)
	};
}

/** The least remembered first. */
function knownSkills(night: Night): KnownSkill[] {
	const skills = new Map(night.skills.filter((skill) => isPlayable(skill, night)).map((skill) => [skill.id, skill]));
	return night.memories
		.flatMap((memory) => {
			const skill = skills.get(memory.skill);
			if (!skill) return [];
			return [{ skill, memory, recall: recallAt(memory, night.now, night.scheduler), minutes: minutesOf(skill, night.log, night.cuts) }];
		})
		.sort((a, b) => a.recall - b.recall || (a.skill.id < b.skill.id ? -1 : 1));
}

const group = ({ skill, minutes, recall }: KnownSkill, why: 'due' | 'early'): Group => ({ skill, why, minutes, recall, count: 1 });

function newGroups(night: Night, known: readonly KnownSkill[]): Group[] {
	const begun = new Set(night.memories.map(({ skill }) => skill));
	const playable = night.skills.filter((skill) => isPlayable(skill, night));
	return openSkills(playable, begun, night.cuts)
		.slice(0, mostNew(night, known))
		.map((skill) => ({
			skill,
			why: 'new',
			minutes: minutesOf(skill, night.log, night.cuts),
			recall: null,
			count: skill.kind === 'area' ? night.cuts.together.most : 1
		}));
}

/** What is not due and was not shown today; what was shown today only where there is nothing else at all. */
function early({ now, scheduler: { zone } }: Night, known: readonly KnownSkill[], isMore: boolean): Group[] {
	const notDue = known.filter(({ memory }) => !isDue(memory, now));
	const today = dayOf(now, zone);
	const rested = notDue.filter(({ memory }) => dayOf(memory.last, zone) < today);
	return (isMore || rested.length > 0 || notDue.length < known.length ? rested : notDue).map((one) => group(one, 'early'));
}

const kindOfGroup = ({ skill }: Group): string => kindOf(skill);
const feelOfGroup = ({ skill }: Group): string => feelOf(skill);

/**
 * As many of the candidates as the minutes hold, in an order in which no kind follows itself: what is due, the least remembered first, and
 * the rest only once all of that is in. Where so much of what is due is of one kind that there is no such order, it is chosen one by one.
 */
function inOrder(candidates: readonly Group[], night: Night): Group[] {
	const taken = fitting(night);
	const due = candidates.filter(({ why }) => why === 'due');
	for (const one of due) taken.add(one);
	if (taken.groups.length === due.length) for (const one of candidates.slice(due.length)) taken.add(one);
	const draw = chance(night.seed, 'order');
	const groups = someDrawn(taken.groups, draw);
	return mixed(groups, feelOfGroup) ?? mixed(groups, kindOfGroup, feelOfGroup) ?? headDrawn(oneByOne(candidates, night), draw);
}

/**
 * Known callouts in an order that is drawn, and so are drills recalled alike, which would else come by name; each at the place of one that
 * is there for the same reason, and all else where it was.
 */
function someDrawn(groups: readonly Group[], draw: Chance): Group[] {
	const among = ({ why, skill, recall }: Group) => (why === 'new' ? null : `${why} ${skill.kind === 'area' ? 'callout' : recall}`);
	return [...new Set(groups.flatMap((one) => among(one) ?? []))].reduce<Group[]>(
		(all, alike) => {
			const order = shuffled(
				draw,
				all.filter((one) => among(one) === alike)
			);
			return all.map((one) => (among(one) === alike ? order.shift()! : one));
		},
		[...groups]
	);
}

/**
 * The same where one kind crowds the rest. What comes before anything was let in to set two apart is drawn, and still ends in the kind that it
 * ended in; from there on each place is left to one kind alone.
 */
function headDrawn(groups: readonly Group[], draw: Chance): Group[] {
	const letIn = groups.findIndex(({ why }) => why !== 'due');
	const head = letIn < 0 ? groups : groups.slice(0, letIn);
	const backwards = someDrawn(head, draw).toReversed();
	const last = backwards.find((one) => kindOfGroup(one) === kindOfGroup(head.at(-1)!));
	if (!last) return [...groups];
	const order = mixed([last, ...backwards.filter((one) => one !== last)], kindOfGroup) ?? backwards;
	return [...order.toReversed(), ...groups.slice(head.length)];
}

/** Between two of a kind comes something known, or else something new. */
function oneByOne(candidates: readonly Group[], night: Night): Group[] {
	const taken = fitting(night);
	let rest = [...candidates];
	for (;;) {
		const last = taken.groups.at(-1);
		const isDueLeft = rest.some(({ why }) => why === 'due');
		const order: readonly Group['why'][] = isDueLeft ? ['due', 'early', 'new'] : ['new', 'early'];
		const next = order
			.flatMap((why) => rest.filter((one) => one.why === why))
			.filter(({ skill }) => !last || kindOf(skill) !== kindOf(last.skill))
			.find((one) => taken.add(one));
		if (!next) return taken.groups;
		rest = rest.filter((one) => one !== next);
	}
}

/** Takes groups while they fit. One of a new skill shrinks where its most callouts do not fit. */
function fitting({ minutes, cuts }: Night) {
	const groups: Group[] = [];
	let total = 0;
	const fits = (one: Group, count: number) => {
		const beforeLast = total + (count - 1) * one.minutes;
		return total === 0 ? beforeLast < minutes : beforeLast + cuts.half * one.minutes <= minutes;
	};
	return {
		groups,
		/** @returns whether it was taken */
		add(one: Group): boolean {
			const least = Math.min(one.count, cuts.together.least);
			let { count } = one;
			while (count > least && !fits(one, count)) count--;
			if (!fits(one, count)) return false;
			groups.push({ ...one, count });
			total += count * one.minutes;
			return true;
		}
	};
}
