/**
 * One alarm told to one person by one way, as it is kept until it was sent. The row is made in the
 * same transaction as the change of the alarm it tells of; its id is made from what is told and to
 * whom, so that telling it twice is the same row.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';

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
  /** Everything the senders need to write the message, frozen when it was made. */
  body: NoticeBody;
}

interface NoticeBody {
  subject: string;
  text: string;
  event: AlarmEvent;
  /**
   * Which of the recipient's ways this row goes by: `mail`, `webhook-2` … (see ./recipients.ts).
   */
  channel?: string;
  /** Why this person was told. */
  reason?: string;
  [more: string]: unknown;
}
