CREATE TABLE `act` (
	`id` text PRIMARY KEY NOT NULL,
	`at_ms` integer NOT NULL,
	`well` text,
	`row` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `act_time` ON `act` (`at_ms`);--> statement-breakpoint
CREATE TABLE `alarm` (
	`id` text PRIMARY KEY NOT NULL,
	`well` text NOT NULL,
	`since_ms` integer NOT NULL,
	`ended_ms` integer,
	`row` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `alarm_well` ON `alarm` (`well`,`since_ms`);--> statement-breakpoint
CREATE INDEX `alarm_ended` ON `alarm` (`ended_ms`);--> statement-breakpoint
CREATE TABLE `baseline` (
	`well` text NOT NULL,
	`at_ms` integer NOT NULL,
	`pump` text NOT NULL,
	`row` text NOT NULL,
	PRIMARY KEY(`well`, `at_ms`, `pump`)
);
--> statement-breakpoint
CREATE TABLE `block` (
	`id` integer PRIMARY KEY NOT NULL,
	`series` integer NOT NULL,
	`level` integer NOT NULL,
	`from_ms` integer NOT NULL,
	`to_ms` integer NOT NULL,
	`n` integer NOT NULL,
	`summary` blob NOT NULL,
	`body` blob NOT NULL
);
--> statement-breakpoint
CREATE INDEX `block_place` ON `block` (`series`,`from_ms`,`to_ms`);--> statement-breakpoint
CREATE TABLE `clock_step` (
	`node` text NOT NULL,
	`at_ms` integer NOT NULL,
	PRIMARY KEY(`node`, `at_ms`)
);
--> statement-breakpoint
CREATE TABLE `credential` (
	`node` text PRIMARY KEY NOT NULL,
	`row` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `cycle` (
	`well` text NOT NULL,
	`pump` text NOT NULL,
	`started_ms` integer NOT NULL,
	`stopped_ms` integer NOT NULL,
	`row` text NOT NULL,
	PRIMARY KEY(`well`, `started_ms`, `pump`)
);
--> statement-breakpoint
CREATE TABLE `day` (
	`well` text NOT NULL,
	`pump` text NOT NULL,
	`date` text NOT NULL,
	`ended_ms` integer NOT NULL,
	`row` text NOT NULL,
	PRIMARY KEY(`well`, `date`, `pump`)
);
--> statement-breakpoint
CREATE TABLE `journal` (
	`id` integer PRIMARY KEY NOT NULL,
	`body` blob NOT NULL
);
--> statement-breakpoint
CREATE TABLE `news` (
	`well` text NOT NULL,
	`at_ms` integer NOT NULL,
	`body` text NOT NULL,
	PRIMARY KEY(`well`, `at_ms`, `body`)
);
--> statement-breakpoint
CREATE TABLE `node` (
	`node` text PRIMARY KEY NOT NULL,
	`saved_row` integer NOT NULL,
	`saved_packs` integer NOT NULL,
	`row` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `notice` (
	`id` text PRIMARY KEY NOT NULL,
	`state` text NOT NULL,
	`due_ms` integer NOT NULL,
	`tries` integer NOT NULL,
	`row` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `notice_due` ON `notice` (`state`,`due_ms`);--> statement-breakpoint
CREATE TABLE `refused` (
	`id` integer PRIMARY KEY NOT NULL,
	`row` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `refused_count` (
	`reason` text PRIMARY KEY NOT NULL,
	`count` integer NOT NULL,
	`last_ms` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `rerun_mark` (
	`well` text PRIMARY KEY NOT NULL,
	`from_ms` integer NOT NULL
);
--> statement-breakpoint
CREATE TABLE `series` (
	`id` integer PRIMARY KEY NOT NULL,
	`node` text NOT NULL,
	`channel` text NOT NULL,
	`sealed_row` integer NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `series_name` ON `series` (`node`,`channel`);--> statement-breakpoint
CREATE TABLE `value` (
	`key` text PRIMARY KEY NOT NULL,
	`value` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `snapshot` (
	`well` text NOT NULL,
	`at_ms` integer NOT NULL,
	`state` blob NOT NULL,
	PRIMARY KEY(`well`, `at_ms`)
);
