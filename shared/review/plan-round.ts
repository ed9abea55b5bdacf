/**
 * Tonight's round. What is due comes first, the least remembered before the rest; then new skills, where minutes are spare; then, where
 * minutes are left, what is least remembered of the rest is brought forward. What does not fit waits for the nights to come, so a missed
 * week is worked off over several nights, the worst first, and nothing is begun meanwhile.
 *
 * No two items of one fault area, whatever the family, and no two of one kind of drill follow each other. Only in the round in which a
 * skill is begun do its first two or three callouts come together.
 * @see De Croock, van Merrienboer and Paas 1998; van Merrienboer, de Croock and Jelsma 1997: faults in random order made practice slower
 * and worse and diagnosis of new faults better. How many come together first is a judgement of ours
 */
import { dayOf } from './learner-day.ts';
import { minutesOf } from './minutes-of.ts';
import { mixed } from './mix.ts';
import { mostNew, openSkills, type Kept } from './new-skills.ts';
import { isPlayable, kindOf, type Night } from './night.ts';
import type { Round } from './round.ts';
import { isDue, recallAt } from './schedule.ts';
import type { Skill } from './skill.ts';
import { whatToPlay, type Wanted } from './what-to-play.ts';

/** Items of one skill that stay together: one, or the first callouts of a new skill. */
interface Group extends Wanted {
	readonly count: number;
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
	const groups = inOrder([...due, ...newGroups(night, known), ...early(night, known)], night);
	const wanted = groups.flatMap((one) => Array.from({ length: one.count }, () => one));
	return {
		items: whatToPlay(wanted, night),
		left: due.length - groups.filter(({ why }) => why === 'due').length,
		mixed: groups.some(({ skill }, index) => index > 0 && kindOf(skill) !== kindOf(groups[index - 1].skill))
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

const group = ({ skill, minutes }: KnownSkill, why: 'due' | 'early'): Group => ({ skill, why, minutes, count: 1 });

function newGroups(night: Night, known: readonly KnownSkill[]): Group[] {
	const begun = new Set(night.memories.map(({ skill }) => skill));
	const playable = night.skills.filter((skill) => isPlayable(skill, night));
	return openSkills(playable, begun, night.cuts)
		.slice(0, mostNew(night, known))
		.map((skill) => ({
			skill,
			why: 'new',
			minutes: minutesOf(skill, night.log, night.cuts),
			count: skill.kind === 'area' ? night.cuts.together.most : 1
		}));
}

/** What is not due and was not shown today; what was shown today only where there is nothing else at all. */
function early({ now, scheduler: { zone } }: Night, known: readonly KnownSkill[]): Group[] {
	const notDue = known.filter(({ memory }) => !isDue(memory, now));
	const today = dayOf(now, zone);
	const rested = notDue.filter(({ memory }) => dayOf(memory.last, zone) < today);
	return (rested.length > 0 || notDue.length < known.length ? rested : notDue).map((one) => group(one, 'early'));
}

/**
 * As many of the candidates as the minutes hold, in an order in which no kind follows itself: what is due, the least remembered first, and
 * the rest only once all of that is in. Where so much of what is due is of one kind that there is no such order, it is set one by one.
 */
function inOrder(candidates: readonly Group[], night: Night): Group[] {
	const taken = fitting(night);
	const due = candidates.filter(({ why }) => why === 'due');
	for (const one of due) taken.add(one);
	if (taken.groups.length === due.length) for (const one of candidates.slice(due.length)) taken.add(one);
	return mixed(taken.groups, ({ skill }) => kindOf(skill)) ?? oneByOne(candidates, night);
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
