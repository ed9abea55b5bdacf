CREATE TABLE `drill` (
	`id` text PRIMARY KEY NOT NULL,
	`learner` text NOT NULL,
	`generator` text NOT NULL,
	`family` text,
	`pack_hash` text,
	`seed` integer NOT NULL,
	`created` integer NOT NULL,
	`answer` text,
	`answered` integer,
	FOREIGN KEY (`learner`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `drill_by_learner` ON `drill` (`learner`,`created`);--> statement-breakpoint
CREATE TABLE `failed_sign_in` (
	`key` text NOT NULL,
	`at` integer NOT NULL
);
--> statement-breakpoint
CREATE INDEX `failed_sign_in_by_key` ON `failed_sign_in` (`key`,`at`);--> statement-breakpoint
CREATE TABLE `fit` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`learner` text,
	`at` integer NOT NULL,
	`items` integer NOT NULL,
	`version` text NOT NULL,
	`parameters` text NOT NULL,
	`before` real NOT NULL,
	`after` real NOT NULL,
	`kept` integer NOT NULL,
	FOREIGN KEY (`learner`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `memory` (
	`learner` text NOT NULL,
	`skill` text NOT NULL,
	`scheduler` text NOT NULL,
	`content` text NOT NULL,
	`due` integer NOT NULL,
	PRIMARY KEY(`learner`, `skill`),
	FOREIGN KEY (`learner`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `memory_by_due` ON `memory` (`learner`,`due`);--> statement-breakpoint
CREATE TABLE `owner_link` (
	`secret` text PRIMARY KEY NOT NULL,
	`created` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `review` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`learner` text NOT NULL,
	`skill` text NOT NULL,
	`at` integer NOT NULL,
	`recall` text NOT NULL,
	`minutes` real NOT NULL,
	`attempt` text,
	`drill` text,
	FOREIGN KEY (`learner`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`attempt`) REFERENCES `attempt`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`drill`) REFERENCES `drill`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `review_by_learner` ON `review` (`learner`,`at`);--> statement-breakpoint
CREATE UNIQUE INDEX `review_of_attempt` ON `review` (`attempt`,`skill`);--> statement-breakpoint
CREATE UNIQUE INDEX `review_of_drill` ON `review` (`drill`,`skill`);--> statement-breakpoint
CREATE TABLE `round` (
	`id` text PRIMARY KEY NOT NULL,
	`learner` text NOT NULL,
	`minutes` integer NOT NULL,
	`created` integer NOT NULL,
	`ended` integer,
	FOREIGN KEY (`learner`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `round_by_learner` ON `round` (`learner`,`created`);--> statement-breakpoint
CREATE TABLE `round_item` (
	`round` text NOT NULL,
	`place` integer NOT NULL,
	`skill` text NOT NULL,
	`content` text NOT NULL,
	`attempt` text,
	`drill` text,
	PRIMARY KEY(`round`, `place`),
	FOREIGN KEY (`round`) REFERENCES `round`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`attempt`) REFERENCES `attempt`(`id`) ON UPDATE no action ON DELETE set null,
	FOREIGN KEY (`drill`) REFERENCES `drill`(`id`) ON UPDATE no action ON DELETE set null
);
--> statement-breakpoint
ALTER TABLE `attempt` ADD `reviewed` integer;--> statement-breakpoint
ALTER TABLE `learner` ADD `role` text DEFAULT 'learner' NOT NULL;--> statement-breakpoint
ALTER TABLE `learner` ADD `name` text;--> statement-breakpoint
ALTER TABLE `learner` ADD `name_key` text;--> statement-breakpoint
ALTER TABLE `learner` ADD `email` text;--> statement-breakpoint
ALTER TABLE `learner` ADD `password` text;--> statement-breakpoint
ALTER TABLE `learner` ADD `zone` text DEFAULT 'Europe/London' NOT NULL;--> statement-breakpoint
ALTER TABLE `learner` ADD `retention` real DEFAULT 0.85 NOT NULL;--> statement-breakpoint
ALTER TABLE `learner` ADD `calendar` text;--> statement-breakpoint
CREATE UNIQUE INDEX `learner_name_key_unique` ON `learner` (`name_key`);--> statement-breakpoint
CREATE UNIQUE INDEX `learner_calendar_unique` ON `learner` (`calendar`);