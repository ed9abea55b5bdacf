export { exportOf } from './export.ts';
export { addLearner, type Learner } from './learners.ts';
export { changePassword, deleteAccount, deleteGuest, ownAccount, type OwnAccount } from './own-account.ts';
export { freshOwnerLink, ownerLinkStands, raiseToOwner } from './owner.ts';
export { passwordLength } from './passwords.ts';
export { endAllSessions, endSession, forgetOldSessions, learnerOrGuest, recogniseLearner } from './sessions.ts';
export { signIn } from './sign-in.ts';
export { signUp } from './sign-up.ts';
