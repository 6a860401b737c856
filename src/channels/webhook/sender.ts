/**
 * A webhook, signed as Standard Webhooks 1.0.0 says (https://www.standardwebhooks.com): id, time
 * and body are signed with HMAC-SHA256, so that the receiver knows who sent it, and drops what
 * comes twice by its id. Redirects are not followed: a signed body goes where the settings say and
 * nowhere else.
 */
import { Webhook } from 'standardwebhooks';
import type { NoticeRow } from '../../core/notify/notice-row.ts';
import {
  sendFailure,
  errorMessage,
  noticePayload,
  noticeKey,
  type Send,
  type SendResult,
} from '../sender.ts';
import { texts } from './texts.ts';

export interface WebhookSettings {
  url: string;
  /** `whsec_…`; absent: sent without a signature (only where the settings allow it). */
  secret?: string;
}

const RESPONSE_TIMEOUT_MS = 15_000;
/** The receiver asks never to be told again (Standard Webhooks, "410 Gone"). */
const GONE = 410;

export function webhookSender(settings: WebhookSettings): Send {
  return async (notice, nowMs) => {
    try {
      const response = await fetch(settings.url, {
        method: 'POST',
        redirect: 'manual',
        signal: AbortSignal.timeout(RESPONSE_TIMEOUT_MS),
        ...signedRequest(settings.secret, notice, nowMs),
      });
      await response.body?.cancel();
      return resultOfResponse(response, hostOf(settings.url));
    } catch (error) {
      return sendFailure(
        texts().cannotCallTheWebhook({ host: hostOf(settings.url), reason: reasonOf(error) }),
        true,
      );
    }
  };
}

/**
 * Headers and body of one try: the body and the id are the same at each try, the time is the try's
 * own.
 */
export function signedRequest(
  secret: string | undefined,
  notice: NoticeRow,
  nowMs: number,
): { headers: Record<string, string>; body: string } {
  const id = `msg_${noticeKey(notice.id)}`;
  const body = JSON.stringify({
    type: `alarm.${notice.what}`,
    timestamp: new Date(notice.createdMs).toISOString(),
    data: noticePayload(notice),
  });
  const headers = {
    'content-type': 'application/json',
    'user-agent': 'stillwell',
    'webhook-id': id,
    'webhook-timestamp': String(Math.floor(nowMs / 1000)),
  };
  if (secret === undefined) return { headers, body };
  return {
    headers: { ...headers, 'webhook-signature': new Webhook(secret).sign(id, new Date(nowMs), body) },
    body,
  };
}

function resultOfResponse(response: Response, host: string): SendResult {
  if (response.ok) return { sent: true };
  if (response.status >= 300 && response.status < 400) {
    return sendFailure(texts().webhookAtSendsUs({ host, status: response.status }), true);
  }
  const gone = response.status === GONE;
  const status = `${response.status} ${response.statusText}`.trim();
  return sendFailure(texts().webhookAtAnsweredOnlyXx({ host, status }), !gone);
}

/** The address without its path and query, which may hold secrets. */
function hostOf(url: string): string {
  return URL.canParse(url) ? new URL(url).host : texts().addressThatIsNone;
}

function reasonOf(error: unknown): string {
  if (error instanceof Error && error.name === 'TimeoutError')
    return texts().noAnswerWithinS(RESPONSE_TIMEOUT_MS / 1000);
  const cause = error instanceof Error ? error.cause : undefined;
  const code = typeof cause === 'object' && cause !== null && 'code' in cause ? String(cause.code) : '';
  switch (code) {
    case 'ECONNREFUSED':
      return texts().nothingListensThere;
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return texts().noComputerOfThatName;
    default:
      return `${cause === undefined ? errorMessage(error) : errorMessage(cause)}.`;
  }
}
