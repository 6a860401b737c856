/** `stillwell replay`: a recording through the engine, to lines on stdout. */
import { once } from 'node:events';
import { runReplay } from '../replay/replay.ts';
import { Misuse, type Command } from './command.ts';
import { readOptions } from './options.ts';

export const replayCommand: Command = {
  name: 'replay',
  usage: 'replay RECORDING [--card CARD.json …]',
  about: 'run a recording and print its cycles, days and alarms',
  more: `RECORDING is a file of lines as "stillwell record" or "mosquitto_sub -F %J" write them; .gz is read as it is, - reads
standard input. Give --card once for each well; NODE=CARD.json says which node a card reads from.
It prints one JSON line for each cycle, day, baseline and alarm, in the order of time.
  --root ROOT   first part of the topics (wells)`,
  async run(args, io) {
    const { flags, names } = readOptions(args, {
      card: { type: 'string', multiple: true },
      root: { type: 'string' },
    });
    const [recording, ...rest] = names;
    if (recording === undefined || rest.length > 0)
      throw new Misuse('One recording is expected: stillwell replay RECORDING');
    return runReplay(
      { recording, cards: flags.card ?? [], ...(flags.root !== undefined && { root: flags.root }) },
      { stdin: process.stdin, out: write, err: io.err, progress: io.progress },
    );
  },
};

/** A reader that takes its time, such as a pipe, is waited for. */
async function write(text: string): Promise<void> {
  if (!process.stdout.write(text)) await once(process.stdout, 'drain');
}
