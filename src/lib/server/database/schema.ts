export { action, attempt, type Attempt } from './attempt.ts';
export { failedSignIn, learner, ownerLink, roles, session, type LearnerRow, type Role } from './learner.ts';
export { pack } from './pack.ts';
export {
	drill,
	fit,
	memory,
	review,
	round,
	roundItem,
	type DrillRow,
	type FitRow,
	type ReviewRow,
	type RoundItemRow,
	type RoundRow
} from './practice.ts';
