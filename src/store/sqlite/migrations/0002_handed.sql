CREATE TABLE `handed` (
	`well` text NOT NULL,
	`kind` text NOT NULL,
	`key` text NOT NULL,
	`at_ms` integer NOT NULL,
	`row` text NOT NULL,
	PRIMARY KEY(`well`, `kind`, `key`)
);
--> statement-breakpoint
CREATE INDEX `handed_time` ON `handed` (`well`,`kind`,`at_ms`);