/**
 * Mail by SMTP (RFC 5321) through the relay in the settings. STARTTLS or nothing unless the
 * settings say otherwise. Notices of one alarm hang together in one thread, and say that a machine
 * wrote them (RFC 3834), so that no out-of-office reply comes back. Those of priority now carry the
 * fields Importance and Priority (RFC 2156, registered in RFC 4021), the only ones for urgency that
 * a standard defines.
 */
import { createTransport } from 'nodemailer';
import { noticeText } from '../../core/notify/notice-text.ts';
import type { NoticeRow } from '../../core/notify/notice-row.ts';
import { sendFailure, errorMessage, noticeKey, type Send, type SendResult } from '../sender.ts';
import type { SmtpSettings } from './smtp.ts';
import { texts } from './texts.ts';

export interface MailSettings extends Omit<SmtpSettings, 'passwordFile'> {
  password?: string;
  /** An authority of one's own (PEM), for a relay with its own certificate. */
  ca?: string;
}

const CONNECT_TIMEOUT_MS = 20_000;
const SOCKET_TIMEOUT_MS = 30_000;
/**
 * Replies that say "log in first" or "not with this login": a person may mend that, so they are
 * tried again. RFC 4954.
 */
const LOGIN_REPLIES: readonly number[] = [530, 534, 535, 538];

export interface MailSender {
  /** A sender for one address. */
  to(address: string): Send;
  close(): void;
}

export function openMailSender(settings: MailSettings): MailSender {
  const transport = createTransport({
    host: settings.host,
    port: settings.port,
    secure: settings.secure === 'tls',
    requireTLS: settings.secure === 'starttls',
    ignoreTLS: settings.secure === 'none',
    connectionTimeout: CONNECT_TIMEOUT_MS,
    greetingTimeout: CONNECT_TIMEOUT_MS,
    socketTimeout: SOCKET_TIMEOUT_MS,
    disableFileAccess: true,
    disableUrlAccess: true,
    ...(settings.ca === undefined ? {} : { tls: { ca: settings.ca } }),
    ...(settings.user === undefined ? {} : { auth: { user: settings.user, pass: settings.password ?? '' } }),
  });
  return {
    to: (address) => async (notice) => {
      try {
        await transport.sendMail(buildMail(settings.from, address, notice));
        return { sent: true };
      } catch (error) {
        return mailFailure(error, settings, address);
      }
    },
    close: () => transport.close(),
  };
}

function buildMail(
  from: string,
  address: string,
  notice: NoticeRow,
): Parameters<ReturnType<typeof createTransport>['sendMail']>[0] {
  const domain = /@([^\s@<>]+)>?$/.exec(from)?.[1] ?? 'stillwell.invalid';
  return {
    from,
    to: { name: '', address },
    ...noticeText(notice),
    date: new Date(notice.createdMs),
    messageId: `<${noticeKey(notice.id)}@${domain}>`,
    references: `<${noticeKey(notice.alarmId)}@${domain}>`,
    headers: {
      'Auto-Submitted': 'auto-generated',
      ...(notice.body.event.priority === 'now' && { Importance: 'high', Priority: 'urgent' }),
    },
  };
}

/** One sentence out of what the SMTP library or the relay said. */
function mailFailure(error: unknown, settings: MailSettings, address: string): SendResult {
  const { code, responseCode, response } = errorDetails(error);
  const where = texts().mailRelayPort({ host: settings.host, port: settings.port });
  if (responseCode !== undefined && code !== 'ETLS') {
    const answer = texts().answered({ where, response: response ?? responseCode });
    if (code === 'EAUTH' || LOGIN_REPLIES.includes(responseCode)) {
      return sendFailure(texts().checkTheMailUser(answer), true);
    }
    // Only what it says of this address or this letter is final; the rest a person or time may
    // mend.
    const aboutThisMail = code === 'EENVELOPE' || code === 'EMESSAGE';
    return sendFailure(texts().cannotSendMail({ address, answer }), !(aboutThisMail && responseCode >= 500));
  }
  switch (code ?? '') {
    case 'EDNS':
    case 'ENOTFOUND':
      return sendFailure(texts().noComputerIsCalled(settings.host), true);
    case 'ECONNREFUSED':
      return sendFailure(texts().nothingListensAt(where), true);
    case 'ETLS':
      return sendFailure(texts().noTrustedTls({ where, reason: errorMessage(error) }), true);
    case 'ETIMEDOUT':
      return sendFailure(texts().doesNotAnswer(where), true);
    default:
      return sendFailure(texts().cannotSendMailThere({ where, reason: errorMessage(error) }), true);
  }
}

function errorDetails(error: unknown): { code?: string; responseCode?: number; response?: string } {
  if (typeof error !== 'object' || error === null) return {};
  const code =
    systemCodeOf(error) ?? ('code' in error && typeof error.code === 'string' ? error.code : undefined);
  return {
    ...(code === undefined ? {} : { code }),
    ...('responseCode' in error && typeof error.responseCode === 'number'
      ? { responseCode: error.responseCode }
      : {}),
    ...('response' in error && typeof error.response === 'string' ? { response: error.response } : {}),
  };
}

/** The library puts its own code (ESOCKET) over the system's, which says more. */
function systemCodeOf(error: object): string | undefined {
  return /\b(ECONNREFUSED|ENOTFOUND|ETIMEDOUT)\b/.exec(errorMessage(error))?.[1];
}
