/** The steps that a refusal names, so that they can be done from where it stands. */
import type { StepOffer } from '#shared/callout/view.ts';

/** @returns each step once, in the order of the steps; none that stands already */
export function stepsNamed<Step extends Pick<StepOffer, 'name' | 'stands'>>(says: readonly string[], steps: readonly Step[]): Step[] {
	const words = says.join(' ').toLowerCase();
	const isNamed = (name: string) => words.includes(`${name} first`) || words.includes(`first: ${name}`);
	return steps.filter(({ name, stands }) => !stands && isNamed(name.toLowerCase()));
}
