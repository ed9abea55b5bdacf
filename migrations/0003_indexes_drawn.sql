ALTER TABLE `attempt` ADD `drawn` text;--> statement-breakpoint
CREATE INDEX `attempt_unreviewed` ON `attempt` (`learner`,`ended`) WHERE "attempt"."ended" is not null and "attempt"."reviewed" is null;--> statement-breakpoint
CREATE INDEX `fit_by_learner` ON `fit` (`learner`,`version`);--> statement-breakpoint
CREATE INDEX `round_item_by_attempt` ON `round_item` (`attempt`);--> statement-breakpoint
CREATE INDEX `round_item_by_drill` ON `round_item` (`drill`);--> statement-breakpoint
CREATE INDEX `session_by_learner` ON `session` (`learner`);