/**
 * Texts of MQTT: why the broker in the box does not open or turns a client away, and why an outside
 * broker cannot be used, each with what to do.
 */
type Word = string | number;

const CHECK_LOGIN =
  'Check the user name and password in the settings, and that the broker lets this user in.';

/** Each stands after "Cannot use the broker at …: ". */
const brokerReasons = {
  unknownHost:
    'no computer of that name is known here. Check the name in the broker’s address, and that this network’s name service works.',
  noNameService:
    'the name service does not answer. Check the network, or give the broker’s number address instead of its name.',
  nothingListens:
    'nothing listens there. Check that the broker is running and that the port in its address is right (1883 plain, 8883 with TLS are usual).',
  connectionReset:
    'it ended the connection at once. Often the port wants TLS (mqtts://) or a client certificate, or is no MQTT port.',
  noAnswer: 'it does not answer. Check the address and any firewall between.',
  noRoute: 'no way leads there. Check the network cable or Wi-Fi, and the address.',
  selfSigned:
    'its certificate is signed by itself and not known here. Give that certificate as the CA file in the settings.',
  unknownAuthority:
    'its certificate comes from an authority not known here. Give that authority’s certificate as the CA file in the settings.',
  otherAuthority:
    'its certificate was not signed by the authority in the CA file. Give the right CA file in the settings.',
  certificateExpired: 'its certificate has run out. Renew it on the broker; and check this computer’s clock.',
  certificateNotYetValid: 'its certificate is not valid yet. Check this computer’s clock.',
  certificateOfAnotherName:
    'its certificate is for another name. Use the name that stands in the certificate as the broker’s address.',
  noTls: 'the port does not speak TLS. Use mqtt:// (or ws://) for this port, or the broker’s TLS port.',
  otherTls:
    'the port does not speak TLS as we do. Use mqtt:// (or ws://) for this port, or the broker’s TLS port.',
  wantsCertificate: 'it wants a client certificate. Give the client certificate and its key in the settings.',
  wantsCertificateOrCipher:
    'it wants a client certificate, or no cipher that we have. Give the client certificate and its key in the settings.',
  ourAuthorityUnknown:
    'it does not know the authority of our client certificate. Give a client certificate that the broker trusts.',
  ourCertificateRefused:
    'it does not take our client certificate. Give a client certificate that the broker trusts.',
  otherVersion:
    'it does not speak the MQTT version asked for. Set the MQTT version to the other one (4 is 3.1.1, 5 is 5).',
  clientIdRefused: 'it does not take our client identifier. Give another one in the settings.',
  notAvailable: 'it says that it is not available. It will be tried again.',
  wrongLogin: `it refused the login: wrong user name or password. ${CHECK_LOGIN}`,
  loginNotAuthorized: `it refused the login: not authorized. ${CHECK_LOGIN}`,
  mayNotListen:
    'it does not let us listen to the nodes’ topics. Let this user read them in the broker’s access rules.',
  notAuthorized: `it refused: not authorized. ${CHECK_LOGIN}`,
  busy: 'it says that it is busy. It will be tried again.',
  banned: 'it has banned this client. Ask whoever runs the broker.',
  clientIdTakenOver: 'another client took over with the same client identifier. Let only one server use it.',
  noMqttAtPath: 'no MQTT answers at this path. Check the path in the address (often /mqtt).',
  webServerRefused: `the web server before it refused us. ${CHECK_LOGIN}`,
  saysNothing:
    'it accepts the connection and then says nothing. Check that the port is the broker’s MQTT port, with TLS (mqtts://) where it wants it.',
  noWebsocket: 'it ended the connection at once. Check that the port speaks MQTT over websockets.',
  noReason: 'it gave no reason. It will be tried again.',
};

export type BrokerReason = keyof typeof brokerReasons;

/** Of the connection to an outside broker. */
const ofClient = {
  brokerReasons,
  theBroker: 'the broker',
  theBrokerAt: (address: Word) => `the broker at ${address}`,
  cannotUse: ({ broker, reason }: Record<'broker' | 'reason', Word>) => `Cannot use ${broker}: ${reason}`,
  certificateWithoutKey:
    'Cannot use the broker: a client certificate and its key go together, and one of the two is missing',
  badAddress: (url: Word) =>
    `Cannot use the broker: its address must begin with mqtt://, mqtts://, ws:// or wss://: "${url}"`,
  files: { ca: 'CA file', certificate: 'client certificate', key: 'client key' },
  cannotReadFile: ({ what, errorMessage }: Record<'what' | 'errorMessage', Word>) =>
    `Cannot read the broker’s ${what}: ${errorMessage}`,
  connectionLost: 'the connection was lost; it will be tried again',
  messagesNotKept: 'messages could not be kept; the connection is made anew so that they come again',
  connectionClosed: 'the connection to the broker is closed',
  noConnection: 'there is no connection to the broker just now',
};

/** Of clients that the broker in the box refuses. */
const ofClients = {
  client: ({ user, address }: { user: string | undefined; address: string }) =>
    user === undefined ? `a client at ${address}` : `${JSON.stringify(user)} at ${address}`,
  dropped: ({ client, reason }: Record<'client' | 'reason', Word>) => `Dropped ${client}: ${reason}.`,
  turnedAway: ({ client, reason }: Record<'client' | 'reason', Word>) => `Turned away ${client}: ${reason}.`,
  refused: ({ client, reason }: Record<'client' | 'reason', Word>) => `Refused ${client}: ${reason}.`,
  mayNotListenTo: (topic: Word) => `it may not listen to ${topic}`,
  mayNotPublishTo: (topic: Word) => `it may not publish to ${topic}`,
  packetTooLarge: ({ bytes, maxBytes }: Record<'bytes' | 'maxBytes', Word>) =>
    `a packet of ${bytes} B, at most ${maxBytes} B are taken`,
  willOfAnotherName: (topic: Word) => `its Will must be the presence of its own name: ${topic}`,
  noUserName: 'it gave no user name; give the node its credential',
  noCredential: 'no such node has a credential',
  tooManyAtOnce: 'too many nodes come at once; it may try again',
  wrongPassword: 'its password is wrong',
};

/** Of the broker in the box itself. */
const ofBuiltIn = {
  builtInReports: (errorMessage: Word) => `The built-in broker reports: ${errorMessage}.`,
  builtInClosed: 'the built-in broker is closed',
  cannotPublish: ({ topic, reason }: Record<'topic' | 'reason', Word>) =>
    `Cannot publish to ${topic}: ${reason}`,
  badNodeName: (name: Word) => `Cannot make credential: a node name is 1 to 40 of a-z, 0-9 and -: "${name}"`,
  cannotListen: ({ host, port, reason }: Record<'host' | 'port' | 'reason', Word>) =>
    `Cannot listen for nodes on ${host} port ${port}: ${reason}`,
  portInUse:
    'another program has this port. Stop it (often a second Stillwell or another MQTT broker), give Stillwell another port, or let it use that broker instead.',
  noSuchAddress:
    'this computer has no such address. Give one of its own addresses, or 0.0.0.0 for all of them.',
  portNotAllowed:
    'the system does not allow it. Ports under 1024 need special rights; 1883 is the usual MQTT port.',
  unknownHostName: (host: Word) =>
    `the name "${host}" is not known here. Give an address such as 127.0.0.1 instead.`,
};

export const mqttTexts = { ...ofClient, ...ofClients, ...ofBuiltIn };
