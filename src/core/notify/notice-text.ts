/**
 * The words of a stored notice, made when it is sent or shown: a row holds reasons and figures.
 * They are the same at each try, since times are told from when the row was made.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { withSentence } from '../alarms/lifecycle/alarm-event.ts';
import type { NoticeRow } from './notice-row.ts';
import { writeNotice } from './write-notice.ts';

export function noticeText({ createdMs, body }: NoticeRow): { subject: string; text: string } {
  const { event, subject, text, reopened = false, units = 'us', timeZone = 'UTC', names = {} } = body;
  if (subject !== undefined && text !== undefined) return { subject, text };
  return writeNotice({ event, reopened, nowMs: createdMs, units, timeZone, names });
}

/** The line as machines get it, with its sentence. */
export function noticeEvent({ body }: NoticeRow): AlarmEvent {
  return withSentence(body.event);
}
