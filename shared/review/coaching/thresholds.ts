/**
 * How coaching fades: by the mean stability of the skills begun in a family [days] it asks before every check, every second, every fourth,
 * and then no more. Each figure is a *judgement of ours*: a week, three weeks, two months.
 */
export const fading = [
	{ below: 7, every: 1 },
	{ below: 21, every: 2 },
	{ below: 60, every: 4 }
] as const;
