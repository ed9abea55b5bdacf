export { action, attempt, type Attempt } from './attempt.ts';
export { cohort, cohortAssessor, member, type CohortRow, type MemberRow } from './cohort.ts';
export { failedSignIn, learner, ownerLink, roles, session, type LearnerRow, type Role } from './learner.ts';
export {
	auditEntry,
	auditReason,
	itemMark,
	markChange,
	outbox,
	secondMarking,
	type AuditRow,
	type ItemMarkRow,
	type MarkChangeRow,
	type OutboxRow,
	type SecondMarkingRow
} from './mark.ts';
export { pack } from './pack.ts';
export {
	endings,
	estimate,
	paper,
	paperModes,
	sitting,
	sittingEvent,
	sittingEvents,
	sittingItem,
	variantItem,
	type EstimateRow,
	type PaperRow,
	type SittingEventRow,
	type SittingItemRow,
	type SittingRow,
	type VariantItemRow
} from './paper.ts';
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
