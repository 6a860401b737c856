/**
 * What every way of sending does: takes one letter, and says that it went or why not, in one
 * sentence, and whether trying again can help. A sender never throws for what the world does; it
 * ends within its own time limit.
 */
import { createHash } from 'node:crypto';
import { noticeEvent, noticeText } from '../core/notify/notice-text.ts';
import type { NoticeRow } from '../core/notify/notice-row.ts';
import { texts } from './texts.ts';

export type SendResult = { sent: true; note?: string } | { sent: false; problem: string; retryable: boolean };

/** `nowMs` is the time of this try. */
export type Send = (notice: NoticeRow, nowMs: number) => Promise<SendResult>;

export function sendFailure(problem: string, retryable: boolean): SendResult {
  return { sent: false, problem, retryable };
}

/** A channel that cannot work as the settings are: trying again is no help. */
export function failingSender(reason: string): Send {
  return () => Promise.resolve(sendFailure(texts().cannotSend(reason), false));
}

/**
 * The same notice has the same key at each try and after a restart, so that who receives it twice
 * can tell (Message-ID, webhook-id). 32 hex digits: no dots, slashes or names of people in it.
 */
export function noticeKey(id: string): string {
  return createHash('sha256').update(id).digest('hex').slice(0, 32);
}

/**
 * What machines are told: on a topic, at a webhook, on a command's standard input. The same bytes
 * at each try.
 */
export function noticePayload(notice: NoticeRow): Record<string, unknown> {
  const { reason } = notice.body;
  return {
    id: noticeKey(notice.id),
    what: notice.what,
    to: notice.to,
    ...noticeText(notice),
    ...(reason === undefined ? {} : { reason }),
    event: noticeEvent(notice),
  };
}

export function errorMessage(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
