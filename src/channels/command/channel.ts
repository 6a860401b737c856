/** Notices to a program of this machine: it gets the notice as JSON on its standard input. */
import { z } from 'zod';
import { list, MAX_LIST_ITEMS, MAX_TEXT_CHARACTERS, section, text } from '../../settings-shapes.ts';
import type { Channel } from '../channel.ts';

const shape = section({
  program: text('must be the path of a program'),
  args: list(
    z.string({ error: 'must be text' }).max(MAX_TEXT_CHARACTERS, { error: 'must be shorter' }),
    MAX_LIST_ITEMS,
  ).default([]),
});

export const command = {
  shape,
  help: [
    {
      key: '',
      description: 'Run a program of this machine. It gets the notice as JSON on its standard input.',
    },
    { key: 'program', description: 'Path of the program.' },
    { key: 'args', description: 'Its arguments.', defaultText: 'none' },
  ],
  words: () => 'command',
  async open() {
    const { commandSender } = await import('./sender.ts');
    return { sender: (own) => commandSender(own) };
  },
} as const satisfies Channel<z.output<typeof shape>>;
