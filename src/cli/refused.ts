/**
 * `stillwell refused`: messages that the server refused, counted by reason, and the last ones in
 * full.
 */
import { formatNumber } from '../../shared/quantity/format-quantity.ts';
import type { RefusedAnswer } from '../../shared/api/server-state.ts';
import { EXIT, type CommandBuilder } from './command.ts';
import { jsonOption, serverOption, wholeNumber } from './options.ts';
import { serverApi } from './server-api.ts';
import { utcMoment } from './utc-moment.ts';
import { texts } from './texts.ts';

const DEFAULT_LIMIT = 20;

export const refusedCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(texts().listTheMessages)
    .option(
      '--limit <n>',
      texts().howManyOfTheLast(DEFAULT_LIMIT),
      wholeNumber('--limit', { from: 1, to: 200 }),
    )
    .addOption(jsonOption())
    .addOption(serverOption())
    .addHelpText('after', texts().examplesOfRefused)
    .action(
      action(async ({ limit = DEFAULT_LIMIT, json, server }) => {
        const answer = await serverApi(server).get('refused', { limit: String(limit) });
        if (json) io.out(JSON.stringify(answer));
        else for (const line of refusedLines(answer)) io.out(line);
        return EXIT.ok;
      }),
    );
};

function refusedLines({ counts, last }: RefusedAnswer): string[] {
  if (counts.length === 0) return [texts().noMessageWasRefused];
  const longest = Math.max(...counts.map(({ reason }) => reason.length));
  return [
    ...counts.map(
      ({ reason, count, lastMs }) =>
        `${reason.padEnd(longest)}  ${texts().countLast({ count: formatNumber(count, 0), moment: utcMoment(lastMs) })}`,
    ),
    ...(last.length === 0 ? [] : ['', texts().lastOnes]),
    ...last.map(({ atMs, topic, reason, detail }) => `${utcMoment(atMs)}  ${topic}  ${reason}: ${detail}`),
  ];
}
