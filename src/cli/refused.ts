/**
 * `stillwell refused`: messages that the server refused, counted by reason, and the last ones in
 * full.
 */
import type { RefusedAnswer } from '../../shared/api/server-state.ts';
import { EXIT, type CommandBuilder } from './command.ts';
import { JSON_OPTION, SERVER_OPTION, wholeNumber } from './options.ts';
import { serverApi } from './server-api.ts';
import { utcMoment } from './utc-moment.ts';

const DEFAULT_LIMIT = 20;

export const refusedCommand: CommandBuilder = (command, { io, action }) => {
  command
    .description(
      'List the messages that the server refused, counted by reason, and the last ones. ' +
        'Every refused message is kept, so that its sender can be repaired. The server must be running.',
    )
    .option(
      '--limit <n>',
      `How many of the last ones. Default: ${DEFAULT_LIMIT}.`,
      wholeNumber('--limit', { from: 1, to: 200 }),
    )
    .addOption(JSON_OPTION)
    .addOption(SERVER_OPTION)
    .addHelpText('after', '\nExample:\n  stillwell refused --limit 5')
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
  if (counts.length === 0) return ['No message was refused.'];
  const longest = Math.max(...counts.map(({ reason }) => reason.length));
  return [
    ...counts.map(
      ({ reason, count, lastMs }) =>
        `${reason.padEnd(longest)}  ${count.toLocaleString('en')}  last ${utcMoment(lastMs)}`,
    ),
    ...(last.length === 0 ? [] : ['', 'The last ones:']),
    ...last.map(({ atMs, topic, reason, detail }) => `${utcMoment(atMs)}  ${topic}  ${reason}: ${detail}`),
  ];
}
