CREATE TABLE `audit_entry` (
	`seq` integer PRIMARY KEY NOT NULL,
	`at` integer NOT NULL,
	`by` text,
	`cohort` text,
	`kind` text NOT NULL,
	`subject` text NOT NULL,
	`content` text NOT NULL,
	`previous` text NOT NULL,
	`hash` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `audit_by_subject` ON `audit_entry` (`subject`);--> statement-breakpoint
CREATE INDEX `audit_by_cohort` ON `audit_entry` (`cohort`);--> statement-breakpoint
CREATE TABLE `audit_reason` (
	`entry` integer PRIMARY KEY NOT NULL,
	`text` text NOT NULL,
	FOREIGN KEY (`entry`) REFERENCES `audit_entry`(`seq`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `cohort` (
	`id` text PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`invented` integer DEFAULT false NOT NULL,
	`code` text,
	`created` integer NOT NULL,
	`archived` integer
);
--> statement-breakpoint
CREATE UNIQUE INDEX `cohort_code_unique` ON `cohort` (`code`);--> statement-breakpoint
CREATE TABLE `cohort_assessor` (
	`cohort` text NOT NULL,
	`assessor` text NOT NULL,
	`since` integer NOT NULL,
	PRIMARY KEY(`cohort`, `assessor`),
	FOREIGN KEY (`cohort`) REFERENCES `cohort`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`assessor`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `cohort_by_assessor` ON `cohort_assessor` (`assessor`);--> statement-breakpoint
CREATE TABLE `estimate` (
	`paper` text NOT NULL,
	`judge` text NOT NULL,
	`slot` integer NOT NULL,
	`expected` real NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`paper`, `judge`, `slot`),
	FOREIGN KEY (`paper`) REFERENCES `paper`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `item_mark` (
	`sitting` text NOT NULL,
	`slot` integer NOT NULL,
	`content` text NOT NULL,
	`got` real NOT NULL,
	`out_of` real NOT NULL,
	`at` integer NOT NULL,
	PRIMARY KEY(`sitting`, `slot`),
	FOREIGN KEY (`sitting`) REFERENCES `sitting`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE TABLE `mark_change` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`sitting` text NOT NULL,
	`slot` integer NOT NULL,
	`criterion` text,
	`before` real NOT NULL,
	`after` real NOT NULL,
	`reason` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`sitting`) REFERENCES `sitting`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `mark_change_by_sitting` ON `mark_change` (`sitting`);--> statement-breakpoint
CREATE TABLE `member` (
	`id` text PRIMARY KEY NOT NULL,
	`cohort` text NOT NULL,
	`name` text NOT NULL,
	`reference` text,
	`code` text,
	`learner` text,
	`extra_percent` integer DEFAULT 0 NOT NULL,
	`created` integer NOT NULL,
	`joined` integer,
	`left` integer,
	FOREIGN KEY (`cohort`) REFERENCES `cohort`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`learner`) REFERENCES `learner`(`id`) ON UPDATE no action ON DELETE set null
);
--> statement-breakpoint
CREATE UNIQUE INDEX `member_code_unique` ON `member` (`code`);--> statement-breakpoint
CREATE INDEX `member_by_cohort` ON `member` (`cohort`);--> statement-breakpoint
CREATE UNIQUE INDEX `member_of_learner` ON `member` (`learner`,`cohort`);--> statement-breakpoint
CREATE TABLE `outbox` (
	`id` text PRIMARY KEY NOT NULL,
	`sitting` text NOT NULL,
	`statement` text NOT NULL,
	`created` integer NOT NULL,
	`tries` integer DEFAULT 0 NOT NULL,
	`next` integer,
	`sent` integer,
	`filed` integer,
	`problem` text
);
--> statement-breakpoint
CREATE INDEX `outbox_by_next` ON `outbox` (`next`);--> statement-breakpoint
CREATE TABLE `paper` (
	`id` text PRIMARY KEY NOT NULL,
	`cohort` text NOT NULL,
	`title` text NOT NULL,
	`mode` text NOT NULL,
	`blueprint` text NOT NULL,
	`pass_rule` text NOT NULL,
	`minutes` integer NOT NULL,
	`attempts` integer DEFAULT 1 NOT NULL,
	`variant_count` integer DEFAULT 3 NOT NULL,
	`opens` integer,
	`closes` integer,
	`created` integer NOT NULL,
	`created_by` text NOT NULL,
	`set` integer,
	FOREIGN KEY (`cohort`) REFERENCES `cohort`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `paper_by_cohort` ON `paper` (`cohort`,`created`);--> statement-breakpoint
CREATE TABLE `second_marking` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`sitting` text NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	`agrees` integer NOT NULL,
	`note` text NOT NULL,
	`last_change` integer,
	FOREIGN KEY (`sitting`) REFERENCES `sitting`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `second_marking_by_sitting` ON `second_marking` (`sitting`);--> statement-breakpoint
CREATE TABLE `sitting` (
	`id` text PRIMARY KEY NOT NULL,
	`paper` text NOT NULL,
	`member` text NOT NULL,
	`variant` integer NOT NULL,
	`number` integer NOT NULL,
	`started` integer NOT NULL,
	`deadline` integer NOT NULL,
	`ended` integer,
	`ended_by` text,
	`seat` text,
	`seen` integer NOT NULL,
	`marked` integer,
	`locked` integer,
	`locked_by` text,
	FOREIGN KEY (`paper`) REFERENCES `paper`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`member`) REFERENCES `member`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE UNIQUE INDEX `sitting_of_member` ON `sitting` (`paper`,`member`,`number`);--> statement-breakpoint
CREATE INDEX `sitting_by_member` ON `sitting` (`member`);--> statement-breakpoint
CREATE INDEX `sitting_running` ON `sitting` (`deadline`) WHERE "sitting"."ended" is null;--> statement-breakpoint
CREATE TABLE `sitting_event` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`sitting` text NOT NULL,
	`at` integer NOT NULL,
	`kind` text NOT NULL,
	FOREIGN KEY (`sitting`) REFERENCES `sitting`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
CREATE INDEX `sitting_event_by_sitting` ON `sitting_event` (`sitting`,`at`);--> statement-breakpoint
CREATE TABLE `sitting_item` (
	`sitting` text NOT NULL,
	`slot` integer NOT NULL,
	`attempt` text,
	`drill` text,
	PRIMARY KEY(`sitting`, `slot`),
	FOREIGN KEY (`sitting`) REFERENCES `sitting`(`id`) ON UPDATE no action ON DELETE cascade,
	FOREIGN KEY (`attempt`) REFERENCES `attempt`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`drill`) REFERENCES `drill`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `sitting_item_by_attempt` ON `sitting_item` (`attempt`);--> statement-breakpoint
CREATE UNIQUE INDEX `sitting_item_by_drill` ON `sitting_item` (`drill`);--> statement-breakpoint
CREATE TABLE `variant_item` (
	`paper` text NOT NULL,
	`variant` integer NOT NULL,
	`slot` integer NOT NULL,
	`content` text NOT NULL,
	PRIMARY KEY(`paper`, `variant`, `slot`),
	FOREIGN KEY (`paper`) REFERENCES `paper`(`id`) ON UPDATE no action ON DELETE cascade
);
--> statement-breakpoint
ALTER TABLE `learner` ADD `gone` integer;--> statement-breakpoint
CREATE TRIGGER `audit_entry_stays` BEFORE UPDATE ON `audit_entry` BEGIN SELECT RAISE(ABORT, 'the audit trail is never changed'); END;--> statement-breakpoint
CREATE TRIGGER `audit_entry_is_kept` BEFORE DELETE ON `audit_entry` BEGIN SELECT RAISE(ABORT, 'the audit trail is never shortened'); END;--> statement-breakpoint
CREATE TRIGGER `audit_entry_follows` BEFORE INSERT ON `audit_entry` WHEN NEW.`seq` <> (SELECT coalesce(max(`seq`), 0) + 1 FROM `audit_entry`) BEGIN SELECT RAISE(ABORT, 'the audit trail is only added to'); END;
