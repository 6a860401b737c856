/**
 * Why an outside broker cannot be reached or does not take us, in one sentence that says what to
 * do. Codes: node's system and TLS errors; return codes of MQTT 3.1.1 (table 3.1) and reason codes
 * of MQTT 5 (section 2.4).
 */
import type { BrokerReason } from '../../shared/text/en/server/mqtt.ts';
import { texts } from './texts.ts';

interface ErrorLike {
  code?: string | number;
  message?: string;
  errors?: unknown[];
}

const REASON_BY_CODE: Readonly<Record<string, BrokerReason>> = {
  ENOTFOUND: 'unknownHost',
  EAI_AGAIN: 'noNameService',
  ECONNREFUSED: 'nothingListens',
  ECONNRESET: 'connectionReset',
  EPIPE: 'connectionReset',
  ETIMEDOUT: 'noAnswer',
  EHOSTUNREACH: 'noRoute',
  ENETUNREACH: 'noRoute',
  DEPTH_ZERO_SELF_SIGNED_CERT: 'selfSigned',
  SELF_SIGNED_CERT_IN_CHAIN: 'unknownAuthority',
  UNABLE_TO_VERIFY_LEAF_SIGNATURE: 'unknownAuthority',
  UNABLE_TO_GET_ISSUER_CERT_LOCALLY: 'unknownAuthority',
  UNABLE_TO_GET_ISSUER_CERT: 'unknownAuthority',
  CERT_SIGNATURE_FAILURE: 'otherAuthority',
  CERT_HAS_EXPIRED: 'certificateExpired',
  CERT_NOT_YET_VALID: 'certificateNotYetValid',
  ERR_TLS_CERT_ALTNAME_INVALID: 'certificateOfAnotherName',
  ERR_SSL_WRONG_VERSION_NUMBER: 'noTls',
  ERR_SSL_PACKET_LENGTH_TOO_LONG: 'noTls',
  EPROTO: 'otherTls',
  ERR_SSL_TLSV13_ALERT_CERTIFICATE_REQUIRED: 'wantsCertificate',
  ERR_SSL_SSLV3_ALERT_HANDSHAKE_FAILURE: 'wantsCertificateOrCipher',
  ERR_SSL_TLSV1_ALERT_UNKNOWN_CA: 'ourAuthorityUnknown',
  ERR_SSL_SSLV3_ALERT_BAD_CERTIFICATE: 'ourCertificateRefused',
  '1': 'otherVersion',
  '2': 'clientIdRefused',
  '3': 'notAvailable',
  '4': 'wrongLogin',
  '5': 'loginNotAuthorized',
  '128': 'mayNotListen',
  '132': 'otherVersion',
  '133': 'clientIdRefused',
  '134': 'wrongLogin',
  '135': 'notAuthorized',
  '136': 'notAvailable',
  '137': 'busy',
  '138': 'banned',
  '142': 'clientIdTakenOver',
};

const REASON_BY_TEXT: readonly (readonly [RegExp, BrokerReason])[] = [
  [/Unexpected server response: (404|400)/, 'noMqttAtPath'],
  [/Unexpected server response: (401|403)/, 'webServerRefused'],
  [/connack timeout/i, 'saysNothing'],
  [/socket hang up/i, 'noWebsocket'],
];

/**
 * One sentence: `Cannot use the broker at …: why, and what to do.` `at ` is shown without user name
 * and password.
 */
export function brokerProblem(error: unknown, url?: string): string {
  const { theBroker, theBrokerAt, cannotUse } = texts();
  const broker = url === undefined ? theBroker : theBrokerAt(withoutSecrets(url));
  return cannotUse({ broker, reason: reasonOf(error) });
}

function reasonOf(error: unknown): string {
  const { brokerReasons } = texts();
  const details: ErrorLike = typeof error === 'object' && error !== null ? error : { message: String(error) };
  const known = details.code === undefined ? undefined : REASON_BY_CODE[String(details.code)];
  if (known !== undefined) return brokerReasons[known];
  const text = details.message ?? '';
  const matched = REASON_BY_TEXT.find(([pattern]) => pattern.test(text));
  if (matched !== undefined) return brokerReasons[matched[1]];
  if (details.errors !== undefined && details.errors.length > 0) return reasonOf(details.errors[0]);
  return text === '' ? brokerReasons.noReason : `${text}.`;
}

/** An address as it may be shown: without `user:password@`. */
export function withoutSecrets(url: string): string {
  return url.replace(/\/\/[^/@]*@/, '//');
}
