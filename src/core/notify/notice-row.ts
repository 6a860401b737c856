/**
 * One alarm told to one person by one way, as it is kept until it was sent. The row is made in the
 * same transaction as the change of the alarm it tells of; its id is made from what is told and to
 * whom, so that telling it twice is the same row.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { CardNames } from '../../../shared/text/en/card-names.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';

export interface NoticeRow {
  /**
   * Alarm id, what is told, and to whom: telling the same thing to the same person twice is the
   * same row.
   */
  id: string;
  alarmId: string;
  /** Name of the recipient in the settings. */
  to: string;
  what: 'raised' | 'changed' | 'cleared' | 'withdrawn' | 'test';
  dueMs: number;
  createdMs: number;
  tries: number;
  state: 'due' | 'sent' | 'given-up';
  lastError?: string;
  sentMs?: number;
  body: NoticeBody;
}

/** What the message is made of when it is sent (./notice-text.ts): the same at each try. */
export interface NoticeBody {
  /**
   * The line that was said, over the last raised or changed one: its reason and figures, and no
   * sentence of them.
   */
  event: AlarmEvent;
  /** It was told as over, and is not. */
  reopened?: true;
  /** Of whoever is told: units, and the place's IANA time zone. */
  units?: UnitSystem;
  timeZone?: string;
  /** Whom to call and where to switch off, as the card said it then. */
  names?: CardNames;
  /** Words that were written with the row: of a test, and of rows from earlier versions. */
  subject?: string;
  text?: string;
  /** Which of the recipient's channels this row goes by: `webhook`, `mail:anna@farm.example`. */
  channel?: string;
  /** Why this person was told. */
  reason?: string;
}
