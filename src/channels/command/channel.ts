/** Notices to a program of this machine: it gets the notice as JSON on its standard input. */
import { z } from 'zod';
import { list, MAX_LIST_ITEMS, MAX_TEXT_CHARACTERS, section, text } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';
import { texts } from './texts.ts';

const shape = section({
  program: text(() => texts().mustBeThePath),
  args: list(
    z
      .string({ error: () => texts().mustBeText })
      .max(MAX_TEXT_CHARACTERS, { error: () => texts().mustBeShorter }),
    MAX_LIST_ITEMS,
  ).default([]),
});

export const command = {
  shape,
  help: [
    {
      key: '',
      description: () => texts().runAProgramOfThis,
    },
    { key: 'program', description: () => texts().pathOfTheProgram },
    { key: 'args', description: () => texts().itsArguments, defaultText: 'none' },
  ],
  words: () => 'command',
  async open() {
    const { commandSender } = await import('./sender.ts');
    return { sender: (own) => commandSender(own) };
  },
} as const satisfies Channel<z.output<typeof shape>>;
