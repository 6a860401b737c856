/**
 * Why an outside broker cannot be reached or does not take us, in one sentence that says what to
 * do. Codes: node's system and TLS errors; return codes of MQTT 3.1.1 (table 3.1) and reason codes
 * of MQTT 5 (section 2.4).
 */
interface ErrorLike {
  code?: string | number;
  message?: string;
  errors?: unknown[];
}

const CHECK_LOGIN =
  'Check the user name and password in the settings, and that the broker lets this user in.';

const PROBLEM_BY_CODE: Record<string, string> = {
  ENOTFOUND:
    'no computer of that name is known here. Check the name in the broker’s address, and that this network’s name service works.',
  EAI_AGAIN:
    'the name service does not answer. Check the network, or give the broker’s number address instead of its name.',
  ECONNREFUSED:
    'nothing listens there. Check that the broker is running and that the port in its address is right (1883 plain, 8883 with TLS are usual).',
  ECONNRESET:
    'it ended the connection at once. Often the port wants TLS (mqtts://) or a client certificate, or is no MQTT port.',
  EPIPE:
    'it ended the connection at once. Often the port wants TLS (mqtts://) or a client certificate, or is no MQTT port.',
  ETIMEDOUT: 'it does not answer. Check the address and any firewall between.',
  EHOSTUNREACH: 'no way leads there. Check the network cable or Wi-Fi, and the address.',
  ENETUNREACH: 'no way leads there. Check the network cable or Wi-Fi, and the address.',
  DEPTH_ZERO_SELF_SIGNED_CERT:
    'its certificate is signed by itself and not known here. Give that certificate as the CA file in the settings.',
  SELF_SIGNED_CERT_IN_CHAIN:
    'its certificate comes from an authority not known here. Give that authority’s certificate as the CA file in the settings.',
  UNABLE_TO_VERIFY_LEAF_SIGNATURE:
    'its certificate comes from an authority not known here. Give that authority’s certificate as the CA file in the settings.',
  UNABLE_TO_GET_ISSUER_CERT_LOCALLY:
    'its certificate comes from an authority not known here. Give that authority’s certificate as the CA file in the settings.',
  UNABLE_TO_GET_ISSUER_CERT:
    'its certificate comes from an authority not known here. Give that authority’s certificate as the CA file in the settings.',
  CERT_SIGNATURE_FAILURE:
    'its certificate was not signed by the authority in the CA file. Give the right CA file in the settings.',
  CERT_HAS_EXPIRED: 'its certificate has run out. Renew it on the broker; and check this computer’s clock.',
  CERT_NOT_YET_VALID: 'its certificate is not valid yet. Check this computer’s clock.',
  ERR_TLS_CERT_ALTNAME_INVALID:
    'its certificate is for another name. Use the name that stands in the certificate as the broker’s address.',
  ERR_SSL_WRONG_VERSION_NUMBER:
    'the port does not speak TLS. Use mqtt:// (or ws://) for this port, or the broker’s TLS port.',
  ERR_SSL_PACKET_LENGTH_TOO_LONG:
    'the port does not speak TLS. Use mqtt:// (or ws://) for this port, or the broker’s TLS port.',
  EPROTO:
    'the port does not speak TLS as we do. Use mqtt:// (or ws://) for this port, or the broker’s TLS port.',
  ERR_SSL_TLSV13_ALERT_CERTIFICATE_REQUIRED:
    'it wants a client certificate. Give the client certificate and its key in the settings.',
  ERR_SSL_SSLV3_ALERT_HANDSHAKE_FAILURE:
    'it wants a client certificate, or no cipher that we have. Give the client certificate and its key in the settings.',
  ERR_SSL_TLSV1_ALERT_UNKNOWN_CA:
    'it does not know the authority of our client certificate. Give a client certificate that the broker trusts.',
  ERR_SSL_SSLV3_ALERT_BAD_CERTIFICATE:
    'it does not take our client certificate. Give a client certificate that the broker trusts.',
  '1': 'it does not speak the MQTT version asked for. Set the MQTT version to the other one (4 is 3.1.1, 5 is 5).',
  '2': 'it does not take our client identifier. Give another one in the settings.',
  '3': 'it says that it is not available. It will be tried again.',
  '4': `it refused the login: wrong user name or password. ${CHECK_LOGIN}`,
  '5': `it refused the login: not authorized. ${CHECK_LOGIN}`,
  '128':
    'it does not let us listen to the nodes’ topics. Let this user read them in the broker’s access rules.',
  '132':
    'it does not speak the MQTT version asked for. Set the MQTT version to the other one (4 is 3.1.1, 5 is 5).',
  '133': 'it does not take our client identifier. Give another one in the settings.',
  '134': `it refused the login: wrong user name or password. ${CHECK_LOGIN}`,
  '135': `it refused: not authorized. ${CHECK_LOGIN}`,
  '136': 'it says that it is not available. It will be tried again.',
  '137': 'it says that it is busy. It will be tried again.',
  '138': 'it has banned this client. Ask whoever runs the broker.',
  '142': 'another client took over with the same client identifier. Let only one server use it.',
};

const PROBLEM_BY_TEXT: [RegExp, string][] = [
  [
    /Unexpected server response: (404|400)/,
    'no MQTT answers at this path. Check the path in the address (often /mqtt).',
  ],
  [/Unexpected server response: (401|403)/, `the web server before it refused us. ${CHECK_LOGIN}`],
  [
    /connack timeout/i,
    'it accepts the connection and then says nothing. Check that the port is the broker’s MQTT port, with TLS (mqtts://) where it wants it.',
  ],
  [/socket hang up/i, 'it ended the connection at once. Check that the port speaks MQTT over websockets.'],
];

/**
 * One sentence: `Cannot use the broker at …: why, and what to do.` `at ` is shown without user name
 * and password.
 */
export function brokerProblem(error: unknown, url?: string): string {
  const where = url === undefined ? 'the broker' : `the broker at ${withoutSecrets(url)}`;
  return `Cannot use ${where}: ${reasonOf(error)}`;
}

function reasonOf(error: unknown): string {
  const details: ErrorLike = typeof error === 'object' && error !== null ? error : { message: String(error) };
  const known = details.code === undefined ? undefined : PROBLEM_BY_CODE[String(details.code)];
  if (known !== undefined) return known;
  const text = details.message ?? '';
  const matched = PROBLEM_BY_TEXT.find(([pattern]) => pattern.test(text));
  if (matched !== undefined) return matched[1];
  if (details.errors !== undefined && details.errors.length > 0) return reasonOf(details.errors[0]);
  return text === '' ? 'it gave no reason. It will be tried again.' : `${text}.`;
}

/** An address as it may be shown: without `user:password@`. */
export function withoutSecrets(url: string): string {
  return url.replace(/\/\/[^/@]*@/, '//');
}
