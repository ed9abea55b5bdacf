export { action, attempt, type Attempt } from './attempt.ts';
export { learner, session } from './learner.ts';
export { pack } from './pack.ts';
