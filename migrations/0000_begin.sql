CREATE TABLE `action` (
	`attempt` text NOT NULL,
	`seq` integer NOT NULL,
	`kind` text NOT NULL,
	`content` text NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`attempt`, `seq`),
	FOREIGN KEY (`attempt`) REFERENCES `attempt`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `attempt` (
	`id` text PRIMARY KEY NOT NULL,
	`learner` text NOT NULL,
	`family` text NOT NULL,
	`pack_hash` text NOT NULL,
	`seed` integer NOT NULL,
	`fault` text,
	`created` integer NOT NULL,
	`ended` integer,
	FOREIGN KEY (`learner`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`pack_hash`) REFERENCES `pack`(`hash`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `attempt_by_learner` ON `attempt` (`learner`,`created`);--> statement-breakpoint
CREATE TABLE `learner` (
	`id` text PRIMARY KEY NOT NULL,
	`guest` integer NOT NULL,
	`invented` integer DEFAULT false NOT NULL,
	`created` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `pack` (
	`hash` text PRIMARY KEY NOT NULL,
	`family` text NOT NULL,
	`content` text NOT NULL,
	`created` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `session` (
	`id` text PRIMARY KEY NOT NULL,
	`learner` text NOT NULL,
	`expires_at` integer NOT NULL,
	FOREIGN KEY (`learner`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE cascade
);
