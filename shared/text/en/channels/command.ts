/** Texts of the channel command: what its settings are for, and what goes wrong with it. */
type Word = string | number;

export const commandChannelTexts = {
  thereIsNoSuchProgram: (program: Word) =>
    `Cannot run the command ${program}: there is no such program. Give its full path in the settings.`,
  programMayNotBeRun: (program: Word) =>
    `Cannot run the command ${program}: this user may not run it. Make it executable.`,
  cannotRunTheCommand: ({ program, reason }: Record<'program' | 'reason', Word>) =>
    `Cannot run the command ${program}: ${reason}.`,
  mustBeThePath: 'must be the path of a program',
  mustBeText: 'must be text',
  mustBeShorter: 'must be shorter',
  runAProgramOfThis: 'Run a program on this computer. It gets the notice as JSON on its standard input.',
  pathOfTheProgram: 'Path of the program.',
  itsArguments: 'Its arguments.',
  wasEnded: (signal: Word) => `was ended by ${signal}`,
  endedWithCode: (code: Word) => `ended with code ${code}`,
  command: ({ program, how, rest }: Record<'program' | 'how' | 'rest', Word>) =>
    `The command ${program} ${how}${rest}.`,
  commandTookLongerThanS: ({ program, timeoutMs }: Record<'program' | 'timeoutMs', Word>) =>
    `The command ${program} took longer than ${timeoutMs} s and was ended.`,
};
