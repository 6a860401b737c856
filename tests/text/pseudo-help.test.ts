/**
 * Every `--help` in a language that nobody speaks (tests/support/pseudo-locale.ts): what is left
 * outside its marks is no text of the catalogue, so it must be what is typed.
 */
import type { ViteDevServer } from 'vite';
import { AFFECTED_PARTS, CHECK_OUTCOMES } from '../../shared/entries/entry-fields.ts';
import { SHEETS } from '../../shared/labels/sheets.ts';
import { LABEL_KINDS } from '../../shared/text/en/label-words.ts';
import { READING_WORDS } from '../../shared/text/en/checks/reading-words.ts';
import { WATER_EVENTS } from '../../shared/text/en/water-words.ts';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type * as ProgramModule from '../../src/cli/program.ts';
import { openPseudoModules, withoutMarked } from '../support/pseudo-locale.ts';

let modules: ViteDevServer;
let program: typeof ProgramModule;
beforeAll(async () => {
  modules = await openPseudoModules();
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  program = (await modules.ssrLoadModule('/src/cli/program.ts')) as typeof ProgramModule;
});
afterAll(() => modules.close());

/** Codes that an option or argument takes, as they are typed. */
const TYPED: readonly string[] = [
  ...CHECK_OUTCOMES,
  ...AFFECTED_PARTS,
  ...WATER_EVENTS,
  ...LABEL_KINDS,
  ...SHEETS.map(({ id }) => id),
  ...Object.keys(READING_WORDS),
  // Values and names of settings; units of label stock.
  ...'wells us true false now soon note starttls tls none mail webhook mqtt command smtp in mm'.split(' '),
];

async function helpOf(path: readonly string[]): Promise<string> {
  const out: string[] = [];
  const io = { out: (line: string) => out.push(line), err: () => undefined, env: {}, progress: false };
  expect(await program.runCommandLine([...path, '--help'], io, '0.0.0')).toBe(0);
  return out.join('\n');
}

/** The path of each command, and the names of its arguments. */
async function allCommands(): Promise<{ path: string[]; names: string[] }[]> {
  const io = { out: () => undefined, err: () => undefined, env: {}, progress: false };
  const all = await program.newProgram(io, {
    version: '0.0.0',
    result: { exit: 0 },
    isNeeded: () => true,
  });
  const walk = (command: typeof all, path: string[]): { path: string[]; names: string[] }[] => [
    { path, names: [...path, ...command.registeredArguments.map((one) => one.name())] },
    ...command.commands.flatMap((one) => walk(one, [...path, one.name()])),
  ];
  return walk(all, []);
}

/** What is typed as it stands: commands, options, names of arguments and of settings. */
function withoutTyped(text: string, names: ReadonlySet<string>): string {
  return text
    .replaceAll(/(?<![\w-])--?[a-z][a-z-]*/g, ' ')
    .replaceAll(/<[^>]*>|\[(?!options\]|command\])[a-z=.]+\]/g, ' ')
    .replaceAll(/^ {2}[A-Za-z.[\]]+$/gm, ' ')
    .replaceAll(/[\w./:-]*\d[\w./:-]*|\.stillwell\S*|STILLWELL_[A-Z_]+/g, ' ')
    .split(/[\s,]+|\.(?=\s|$)/)
    .filter((word) => /\p{L}{2}/u.test(word) && !names.has(word))
    .join(' ');
}

describe('no help has a sentence outside the catalogue', () => {
  test('of the program and of each command', async () => {
    const commands = await allCommands();
    const names = new Set(['stillwell', ...TYPED, ...commands.flatMap((one) => one.names)]);
    expect(commands.length).toBeGreaterThan(40);
    const left: string[] = [];
    for (const { path } of commands) {
      // The texts are asked for at the moment of showing, one command after the other.
      // oxlint-disable-next-line no-await-in-loop
      const help = await helpOf(path);
      expect(help).toContain('⟦');
      const words = withoutTyped(withoutMarked(help), names);
      if (words !== '') left.push(`${path.join(' ')}: ${words}`);
    }
    expect(left).toEqual([]);
  });
});
