/** `stillwell replay`: a recording through the engine, to lines on stdout. */
import { once } from 'node:events';
import { runReplay } from '../replay/replay.ts';
import { UsageError, type Command } from './command.ts';
import { readOptions } from './options.ts';

export const replayCommand: Command = {
  name: 'replay',
  usage: 'replay RECORDING [--card CARD.json …] [--root ROOT]',
  about: 'Run a recording through the same engine and print its cycles, days, baselines and alarms.',
  more: `RECORDING is a file as "stillwell record" or "mosquitto_sub -F %J" write it. A file packed with gzip is read as it is; - reads
standard input. One JSON line is printed for each cycle, day, baseline and alarm, in the order of time. No server is needed.

  --card CARD.json       a well's card, for a recording that does not hold it; once for each well
  --card NODE=CARD.json  the same, and the well reads from this node
  --root ROOT            the first part of the topics (wells unless given)`,
  async run(args, io) {
    const { flags, names } = readOptions(args, {
      card: { type: 'string', multiple: true },
      root: { type: 'string' },
    });
    const [recording, ...rest] = names;
    if (recording === undefined || rest.length > 0)
      throw new UsageError('One recording is expected: stillwell replay RECORDING');
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
