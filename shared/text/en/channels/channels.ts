/** Texts that all notice channels share. */
type Word = string | number;

export const channelTexts = {
  cannotReadNoticesToSend: (errorMessage: Word) => `Cannot read notices to send: ${errorMessage}`,
  thisWay: 'this way',
  settingsNoLongerSayHow: ({ to, channel }: Record<'to' | 'channel', Word>) =>
    `The settings no longer say how to notify ${to} by ${channel}.`,
  cannotSendNow: (errorMessage: Word) => `Cannot send: ${errorMessage}`,
  cannotKeepThatANoticeWasSent: (errorMessage: Word) =>
    `Cannot record that a notice was sent: ${errorMessage}`,
  settingsDoNotSayHow: ({ name, id }: Record<'name' | 'id', Word>) =>
    `The settings do not say how to notify ${name} by ${id}.`,
  sentCheckThatItArrived: (words: Word) => `Sent by ${words}. Check that it has arrived.`,
  cannotSend: (reason: Word) => `Cannot send: ${reason}.`,
};
