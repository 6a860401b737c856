/** Texts of replay. */
type Word = string | number;

export const recordingTexts = {
  wellHasACardAlready: ({ file, well }: Record<'file' | 'well', Word>) =>
    `Cannot use card ${file}: well ${well} already has a card`,
  cannotReadTheCard: ({ file, why }: Record<'file' | 'why', Word>) => `Cannot read card ${file}: ${why}`,
  streamGivesNeitherBytesNor: 'Cannot read recording: the stream gives neither bytes nor text',
  readRecording: ({ recording, message }: Record<'recording' | 'message', Word>) =>
    `Cannot read recording ${recording}: ${message}`,
  noneOfItsLinesCould: ({ recording, lines }: Record<'recording' | 'lines', Word>) =>
    `Cannot use recording ${recording}: none of its ${lines} lines could be used`,
  linesIgnored: 'lines ignored',
  messagesRefused: 'messages refused',
  packsThatCameAgain: (duplicates: Word) => `duplicate packs: ${duplicates}`,
  packsTooLateOverDays: (tooLate: Word) => `packs too late (over 7 days) and left out: ${tooLate}`,
  packsWithAWrongClock: (overruled: Word) => `packs with a wrong clock, dated by arrival time: ${overruled}`,
  packsOfUnknownTimeNot: (unknown: Word) => `packs of unknown time, not used: ${unknown}`,
  actsNotUsed: (badActs: Word) => `acts not used: ${badActs}`,
};
