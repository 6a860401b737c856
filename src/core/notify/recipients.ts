/**
 * Who is told, as the settings say it. One row is made for each channel, so that a mail that went
 * out is not sent again because a second address failed.
 */
import type { Priority } from '../../../shared/text/en/alarms/kinds.ts';

export interface Recipient {
  name: string;
  priorities: readonly Priority[];
  /** Absent: all wells. */
  wells?: readonly string[];
  /** `mail:anna@farm.example`, `webhook` …: kept in the row, found again when it is sent. */
  channels: readonly string[];
}
