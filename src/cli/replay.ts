/** `stillwell replay`: a recording through the engine, to lines on stdout. */
import { once } from 'node:events';
import { runReplay } from '../replay/replay.ts';
import type { CommandBuilder } from './command.ts';

export const replayCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(
      'Print the cycles, days, baselines and alarms of a recording, one JSON object on each line. ' +
        'The lines are in order of time. No server is needed. ' +
        'The exit code is 2 if the recording or a card cannot be used.',
    )
    .argument(
      '<recording>',
      'File from "stillwell record", or any MQTT client that prints JSON; gzip is read, too. - reads stdin.',
    )
    .option(
      '--card <[node=]file>',
      'Card (.json) of a well that the recording has no card of. Repeat it for each well. ' +
        'With NODE= the well reads from that node.',
      (text, before: string[] | undefined) => [...(before ?? []), text],
    )
    .option('--root <root>', 'First part of the topics. Default: wells.')
    .addHelpText(
      'after',
      `
Examples:
  stillwell replay alder-bench.ndjson.gz --card north-paddock.json
  stillwell replay --card pumphouse=mill.json - < mill.ndjson`,
    )
    .action(
      action((recording, { card = [], root }) =>
        runReplay(
          { recording, cards: card, ...(root !== undefined && { root }) },
          { stdin: process.stdin, out: write, err: io.err, progress: io.progress },
        ),
      ),
    );
};

/** A slow reader, such as a pipe, is waited for. */
async function write(text: string): Promise<void> {
  if (!process.stdout.write(text)) await once(process.stdout, 'drain');
}
