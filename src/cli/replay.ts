/** `stillwell replay`: a recording through the engine, to lines on stdout. */
import { once } from 'node:events';
import { runReplay } from '../replay/replay.ts';
import type { CommandBuilder } from './command.ts';
import { texts } from './texts.ts';

export const replayCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().printTheCyclesDaysBaselinesAnd)
    .argument('<recording>', texts().fileFromStillwellRecord)
    .option('--card <[node=]file>', texts().cardJsonOfAWell, (text, before: string[] | undefined) => [
      ...(before ?? []),
      text,
    ])
    .option('--root <root>', texts().firstPartOfTheTopics)
    .addHelpText('after', texts().examplesOfReplay)
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
