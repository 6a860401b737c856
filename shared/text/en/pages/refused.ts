/** Texts of the page of refused messages. */
export const refusedTexts = {
  title: 'Refused messages',
  intro: 'Messages from nodes that were refused, with the reason. They affect no other message.',
  subject: 'the refused messages',
  none: 'No refused messages.',
  countByReason: 'Count by reason',
  countAndLast: (count: number, ago: string) => `${count}, last ${ago}`,
  latest: 'Latest',
  firstBytes: (topic: string) => `First bytes of the message on ${topic}`,
};
