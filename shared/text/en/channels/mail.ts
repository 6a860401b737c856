/** Texts of the channel mail: what its settings are for, and what goes wrong with it. */
type Word = string | number;

export const mailChannelTexts = {
  noComputerIsCalled: (host: Word) =>
    `Cannot send mail: unknown host ${host}. Check smtp.host in the settings, and the network.`,
  nothingListensAt: (where: Word) =>
    `Cannot send mail: nothing listens at ${where}. Check smtp.host and smtp.port in the settings.`,
  noTrustedTls: ({ where, reason }: Record<'where' | 'reason', Word>) =>
    `Cannot send mail: ${where} offers no TLS that can be trusted (${reason}). Check smtp.secure in the settings.`,
  doesNotAnswer: (where: Word) =>
    `Cannot send mail: ${where} does not answer. Check smtp.port and smtp.secure in the settings, and the network.`,
  cannotSendMailThere: ({ where, reason }: Record<'where' | 'reason', Word>) =>
    `Cannot send mail: ${where}: ${reason}.`,
  mustBeAMailAddress: 'must be an email address',
  mustHoldAnAddress: 'must hold an address',
  mustBeAMailAddressOr: 'must be an email address, or a list of them',
  notifyByMailNeedsSmtp: 'Notify by email. Needs smtp.',
  oneAddressOrAList: 'One address or a list.',
  mustComeWithSmtpWho: 'needs the section smtp, which names the mail server',
  mailTo: (to: Word) => `mail to ${to}`,
  settingsHaveNoSmtpSection: 'the settings have no smtp section',
  mailRelayPort: ({ host, port }: Record<'host' | 'port', Word>) => `the mail relay ${host} port ${port}`,
  answered: ({ where, response }: Record<'where' | 'response', Word>) => `${where} answered "${response}"`,
  checkTheMailUser: (answer: Word) =>
    `Cannot send mail: ${answer}. Check the mail user and password in the settings.`,
  cannotSendMail: ({ address, answer }: Record<'address' | 'answer', Word>) =>
    `Cannot send mail to ${address}: ${answer}.`,
  mustBeAMailAddressOrA: 'must be an email address, or a name and <an address>',
  mustBeAUserName: 'must be a user name',
  mailServerThatTakesNotices: 'The mail server that sends the notices.',
  itsNameOrAddress: 'Its name or address. A relay on the farm network will do.',
  itsPort: 'Its port.',
  withTlsWithNone: '587; 465 with tls, 25 with none',
  starttlsTlsOrNone: 'starttls, tls, or none for a relay without a user name.',
  userNameWhereItAsks: 'User name, if the server asks for one.',
  fileWithThePassword: 'File with the password. Or set STILLWELL_SMTP_PASSWORD.',
  senderOfTheMail: 'Sender of the mail.',
  mustComeWithSmtpUser: 'must come with smtp.user',
  mustBeStarttlsOrTls:
    'must be starttls or tls if there is a user: otherwise the password is sent unencrypted',
};
