/** Texts of the channel webhook: what its settings are for, and what goes wrong with it. */
type Word = string | number;

export const webhookChannelTexts = {
  nothingListensThere: 'nothing is listening there.',
  noComputerOfThatName: 'unknown host. Check the address and the network.',
  mustBeAnHttp: 'must be an http or https address',
  mustBeTheName: 'must be the name of an environment variable',
  notifyByAnHttpRequest: 'Notify by an HTTP request, signed according to Standard Webhooks.',
  whereItGoes: 'Address that it is sent to.',
  fileWithTheSigningSecret: 'File with the signing secret (whsec_…).',
  orTheEnvironmentVariable: 'Or the environment variable that holds it (name it STILLWELL_SECRET_…).',
  mustHoldOneOfSecretfile: 'must hold one of secretFile, secretEnv',
  mustHoldWhsec: 'must hold whsec_ and the base64 of 24 to 64 bytes',
  cannotCallTheWebhook: ({ host, reason }: Record<'host' | 'reason', Word>) =>
    `Cannot call the webhook at ${host}: ${reason}`,
  webhookAtSendsUs: ({ host, status }: Record<'host' | 'status', Word>) =>
    `The webhook at ${host} redirects to another address (${status}). Redirects are not followed. Give the final address in the settings.`,
  webhookAtAnsweredOnlyXx: ({ host, status }: Record<'host' | 'status', Word>) =>
    `The webhook at ${host} answered ${status}; only 2xx means that it was accepted.`,
  addressThatIsNone: 'an invalid address',
  noAnswerWithinS: (responseTimeoutMs: Word) => `no answer within ${responseTimeoutMs} s.`,
};
