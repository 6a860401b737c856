/**
 * What the commands print, in a language that nobody speaks (tests/support/pseudo-locale.ts): each
 * is run once against a server that speaks it too, most also with a mistake. What is left outside
 * the marks must be data or what is typed.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ViteDevServer } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { ENTRY_KINDS } from '../../shared/entries/entry-fields.ts';
import { DUE_KINDS } from '../../shared/text/en/checks/due-words.ts';
import type * as ProgramModule from '../../src/cli/program.ts';
import type * as TestServerModule from '../support/test-server.ts';
import { openPseudoModules, withoutMarked } from '../support/pseudo-locale.ts';

let modules: ViteDevServer;
let program: typeof ProgramModule;
let station: TestServerModule.TestServer;
let folder: string;
beforeAll(async () => {
  modules = await openPseudoModules();
  /* oxlint-disable typescript/no-unsafe-type-assertion */
  program = (await modules.ssrLoadModule('/src/cli/program.ts')) as typeof ProgramModule;
  const servers = await modules.ssrLoadModule('/tests/support/test-server.ts');
  station = await (servers as typeof TestServerModule).startTestServer();
  /* oxlint-enable typescript/no-unsafe-type-assertion */
  folder = mkdtempSync(join(tmpdir(), 'print-'));
}, 120_000);
afterAll(async () => {
  await station.end();
  rmSync(folder, { recursive: true, force: true });
  await modules.close();
});

/** Each after those before it: the later ones find what the earlier ones wrote. */
const COMMANDS: readonly (readonly string[])[] = [
  ['card', 'list'],
  ['card', 'set', 'mill', '--new', 'timeZone=America/Denver', 'switch=40/60', 'use=house'],
  ['card', 'set', 'mill', 'switch=60/40'],
  ['card', 'set', 'barn', 'use=stock'],
  ['card', 'show', 'mill'],
  ['card', 'history', 'mill'],
  ['card', 'check', 'cards.csv'],
  ['card', 'import', 'cards.csv'],
  ['card', 'import', 'cards.csv', '--skip-bad', '--dry-run'],
  ['card', 'import', 'cards.txt'],
  ['card', 'export', 'out.csv'],
  ['card', 'export', 'out.csv'],
  ['due'],
  ['due', 'nowhere'],
  ['due', 'plan', '--write'],
  ['due', 'done', 'mill', 'precharge', '--value', '36 psi'],
  ['due', 'done', 'mill', 'precharge', '--value', '36 ft'],
  ['due', 'done', 'mill', 'tires'],
  ['due', 'done', '--table', 'checks.csv'],
  ['log', 'note', 'mill', 'Xxxx'],
  ['log', 'list', 'mill'],
  ['log', 'list', 'nowhere'],
  ['note', 'mill', 'guests for 3 weeks'],
  ['note', 'mill'],
  ['reading', 'add', 'mill', 'static-level', '41 ft', '--with', 'Xxxx', '--pin'],
  ['reading', 'add', 'mill', 'static-level', '41 psi'],
  ['reading', 'list', 'mill'],
  ['visit', 'parts', 'mill'],
  ['visit', 'open', 'mill'],
  ['visit', 'work', 'mill', 'Xxxx', '--touched', 'pump'],
  ['visit', 'close', 'mill'],
  ['visit', 'close', 'mill'],
  ['visit', 'list', 'mill'],
  ['water', 'add', 'mill', 'Iron=0.4 mg/L'],
  ['water', 'add', 'mill', 'Iron'],
  ['document', 'list', 'mill'],
  ['document', 'add', 'mill', 'note.txt'],
  ['document', 'get', 'mill', 'other.txt', 'other.txt'],
  ['labels', 'mill', 'labels.html', '--only', 'tank'],
  ['alarms'],
  ['refused'],
  ['export', 'mill', 'mill.zip'],
  ['export', 'mill', 'mill.txt'],
  ['import', 'nothing.zip'],
  ['tidy-up'],
];

const FILES: Readonly<Record<string, string>> = {
  'cards.csv': 'well,switch,use\nyard,60/40,\nshed,30/50,pond\nbarn\n',
  'cards.txt': '',
  'checks.csv': 'well,check,on\nmill,precharge,2025-02-30\nnowhere,precharge,2025-02-03\n',
  'note.txt': 'Xxxx',
};

/** Words that are no text of a command, each list with its reason. */
const DATA: readonly (readonly [reason: string, words: string])[] = [
  ['what the commands above type', 'Xxxx Iron ines mill barn yard shed nowhere pond tires tidy-up guests'],
  ['time zones', 'America Denver'],
  ['fields of the card and their values', 'timeZone use house stock irrigation heat-pump switch points'],
  ['fields of an entry, a check and a result', 'entry check next outcome right value note text pump'],
  ['quantities that a field takes', 'pressure length'],
  ['symbols of units', 'psi kPa bar ft in mm mg'],
  [
    'months, weekdays and hours as Intl writes them',
    'November December January Mon Tue Wed Thu Fri Sat Sun am pm UTC',
  ],
  ['the program', 'stillwell server card'],
];
const ALLOWED = new Set([...DATA.flatMap(([, words]) => words.split(' ')), ...DUE_KINDS, ...ENTRY_KINDS]);

async function printed(args: readonly string[]): Promise<string[]> {
  const lines: string[] = [];
  const print = (line: string): void => void lines.push(line);
  const io = { out: print, err: print, env: { USER: 'ines' }, progress: false };
  const typed = args.map((one) => (/\.(csv|txt|zip|html)$/.test(one) ? join(folder, one) : one));
  const code = await program.runToExitCode([...typed, '--server', station.url], io, '0.0.0');
  return [`${code}`, ...lines];
}

/** Paths, hashes and ids are no words. */
function withoutData(text: string): string {
  return [/\S*\.(csv|txt|zip|html)\b/g, /\b(?=[a-f-]*\d)[\da-f-]{8,}\b/g].reduce(
    (rest, one) => rest.replaceAll(one, ' '),
    text,
  );
}

test('what each command prints', async () => {
  for (const [name, content] of Object.entries(FILES)) writeFileSync(join(folder, name), content);
  const left: string[] = [];
  for (const args of COMMANDS) {
    // Each finds what those before it wrote.
    // oxlint-disable-next-line no-await-in-loop
    const [code, ...lines] = await printed(args);
    const text = lines.join('\n');
    expect(text, args.join(' ')).toContain('⟦');
    const words = (withoutData(withoutMarked(text)).match(/\p{L}[\p{L}’-]+/gu) ?? []).filter(
      (word) => !ALLOWED.has(word),
    );
    if (words.length > 0) left.push(`${args.join(' ')} (${code}): ${words.join(' ')}`);
  }
  expect(left).toEqual([]);
}, 120_000);
