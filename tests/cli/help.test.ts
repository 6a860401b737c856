/**
 * Every help text: each option and argument is explained in short sentences, and no line is too
 * long for a terminal.
 */
import type { CommandUnknownOpts } from '@commander-js/extra-typings';
import { describe, expect, it } from 'vitest';
import { CAUTIONS } from '../../shared/text/en/cautions.ts';
import { newProgram } from '../../src/cli/program.ts';
import { runCli } from './command-line.ts';

const MAX_COLUMNS = 100;
const MAX_WORDS = 19;
/** Cautions keep their words wherever they stand. */
const CAUTION_TEXTS: readonly string[] = Object.values(CAUTIONS);

const program = await newProgram(
  { out: () => undefined, err: () => undefined, env: {}, progress: false },
  { version: '0.0.0', result: { exit: 0 }, isNeeded: () => true },
);

function withCommands(command: CommandUnknownOpts, path: readonly string[]): [string, CommandUnknownOpts][] {
  return [
    [path.join(' '), command],
    ...command.commands.flatMap((one) => withCommands(one, [...path, one.name()])),
  ];
}

const ALL = withCommands(program, []);

/** Sentences of a text; a full stop inside a word, such as ".zip", ends none. */
function sentences(text: string): string[] {
  return text.split(/(?<=[.?!:])\s+/).filter((one) => one !== '');
}

describe('help', () => {
  it('covers every command', () => {
    expect(ALL.length).toBeGreaterThan(40);
  });

  it.each(ALL)('stillwell %s', async (path, command) => {
    const { code, out } = await runCli([...path.split(' ').filter(Boolean), '--help']);
    expect(code).toBe(0);
    expect(out[0]).toMatch(/^Usage: stillwell/);
    expect(out.filter((line) => line.length > MAX_COLUMNS)).toEqual([]);
    const texts = [
      CAUTION_TEXTS.reduce((text, caution) => text.replace(caution, ''), command.description()).trim(),
      ...command.options.map(({ description }) => description),
      ...command.registeredArguments.map(({ description }) => description),
    ];
    for (const text of texts) {
      expect(text).toMatch(/^\S.*\S$/);
      const long = sentences(text).filter((one) => one.split(/\s+/).length > MAX_WORDS);
      expect(long).toEqual([]);
    }
    const printed = out.join('\n');
    for (const { long } of command.options) expect(printed).toContain(long);
  });

  it.each(ALL.filter(([, { commands, options }]) => commands.length === 0 && options.length > 4))(
    'stillwell %s shows an example',
    async (path) => {
      const { out } = await runCli([...path.split(' '), '--help']);
      expect(out.join('\n')).toMatch(new RegExp(`Examples?:\\n(.*\\n)*  stillwell ${path}`));
    },
  );

  it('help COMMAND is COMMAND --help', async () => {
    expect(await runCli(['help', 'card', 'set'])).toEqual(await runCli(['card', 'set', '--help']));
  });
});

describe('stillwell', () => {
  it('prints its version', async () => {
    expect(await runCli(['--version'])).toEqual({ code: 0, out: ['0.0.0'], err: [] });
  });

  it('without a command prints its help, and that is a mistake', async () => {
    const { code, out } = await runCli([]);
    expect(code).toBe(2);
    expect(out[0]).toBe('Usage: stillwell [options] [command]');
  });

  it.each([
    [['watch'], 'Cannot run "watch": it must be one of serve, demo'],
    [['card'], 'Cannot run stillwell card: it needs one of list, show, history, set, check, import, export'],
    [
      ['serve', '--loud'],
      'Cannot read --loud: stillwell serve has no such option. Try: stillwell serve --help',
    ],
    [['serve', '--dat', 'x'], 'Cannot read --dat: stillwell serve has no such option. Did you mean --data?'],
    [['serve', '--port'], 'Cannot read --port: a value must follow it. Try: stillwell serve --help'],
    [['serve', 'mill'], 'Cannot read "mill": too many arguments. Usage: stillwell serve'],
    [['replay', 'a', 'b'], 'Cannot read "b": too many arguments. Usage: stillwell replay <recording>'],
    [['demo', '--days', 'many'], 'Cannot read --days: it must be a whole number from 1 to 400: many'],
  ])('%j is a mistake that is named', async (args, says) => {
    await expect(runCli(args)).rejects.toThrow(says);
  });
});
