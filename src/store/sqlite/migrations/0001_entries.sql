CREATE TABLE `entry` (
	`id` text PRIMARY KEY NOT NULL,
	`well` text NOT NULL,
	`made_ms` integer NOT NULL,
	`row` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `entry_well` ON `entry` (`well`,`made_ms`);