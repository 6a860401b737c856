import { describe, expect, it } from 'vitest';
import { logCommand } from '../../src/cli/logbook/logbook.ts';
import { cardCommand } from '../../src/cli/card/card.ts';
import { EXIT, UsageError, type Command, type Io } from '../../src/cli/command.ts';
import { demoCommand } from '../../src/cli/demo.ts';
import { dueCommand } from '../../src/cli/due/due.ts';
import { labelsCommand } from '../../src/cli/logbook/labels.ts';
import { newLog } from '../../src/cli/server-log.ts';
import { nodeCommand } from '../../src/cli/node.ts';
import { readOptions, readWhole } from '../../src/cli/options.ts';
import { documentCommand } from '../../src/cli/logbook/document.ts';
import { readingCommand } from '../../src/cli/logbook/reading.ts';
import { recordCommand } from '../../src/cli/record.ts';
import { replayCommand } from '../../src/cli/replay.ts';
import { noteCommand } from '../../src/cli/logbook/note.ts';
import { sendTestCommand } from '../../src/cli/send-test.ts';
import { serveCommand } from '../../src/cli/serve.ts';
import { visitCommand } from '../../src/cli/logbook/visit.ts';
import { waterCommand } from '../../src/cli/logbook/water.ts';

const COMMANDS: Command[] = [
  cardCommand,
  dueCommand,
  labelsCommand,
  visitCommand,
  readingCommand,
  waterCommand,
  documentCommand,
  noteCommand,
  logCommand,
  serveCommand,
  demoCommand,
  replayCommand,
  recordCommand,
  nodeCommand,
  sendTestCommand,
];

function io(): Io & { said: string[] } {
  const said: string[] = [];
  return { said, out: (line) => said.push(line), err: (line) => said.push(line), env: {}, progress: false };
}

describe('commands', () => {
  it.each(COMMANDS.map((command) => [command.name, command] as const))(
    '%s says what it is for',
    (name, command) => {
      expect(command.usage.startsWith(name)).toBe(true);
      expect(command.about.length).toBeGreaterThan(20);
      for (const line of command.more.split('\n')) expect(line.length).toBeLessThanOrEqual(150);
    },
  );

  it.each(COMMANDS.map((command) => [command.name, command] as const))(
    '%s refuses an option it does not have',
    async (_name, command) => {
      await expect(command.run(['--no-such-thing'], io())).rejects.toThrow(UsageError);
    },
  );

  it('replay says in one line that there is no such file', async () => {
    const heard = io();
    expect(await replayCommand.run(['no-such-file.ndjson'], heard)).toBe(EXIT.usage);
    expect(heard.said).toHaveLength(1);
    expect(heard.said[0]).toContain('no-such-file.ndjson');
  });
});

describe('readWhole', () => {
  it.each([
    { text: undefined, is: undefined },
    { text: '0', is: 0 },
    { text: '65535', is: 65_535 },
  ])('$text', ({ text, is }) => expect(readWhole('port', text, { from: 0, to: 65_535 })).toBe(is));

  it.each(['65536', '-1', '1.5', 'many', ''])('refuses %j', (text) => {
    expect(() => readWhole('port', text, { from: 0, to: 65_535 })).toThrow(UsageError);
  });
});

describe('readOptions', () => {
  it('parts flags from names', () => {
    const { flags, names } = readOptions(['add', 'barn', '--data', 'x'], { data: { type: 'string' } });
    expect({ ...flags }).toEqual({ data: 'x' });
    expect(names).toEqual(['add', 'barn']);
  });
});

describe('newLog', () => {
  it('writes one plain line with our clock', () => {
    const heard = io();
    const log = newLog(heard, () => Date.UTC(2026, 0, 5, 12));
    log('info', 'Hello.');
    log('warn', 'Careful.');
    expect(heard.said).toEqual(['2026-01-05T12:00:00Z  Hello.', '2026-01-05T12:00:00Z  warn: Careful.']);
  });

  it.each([
    [
      'a line of its own',
      'x"\n2026-11-30T14:00:00Z  Told Anna: all is well',
      'x"\\n2026-11-30T14:00:00Z  Told Anna: all is well',
    ],
    ['a carriage return', 'x\ry', 'x\\ry'],
    ['a terminal’s sequence (ESC, and CSI of C1)', 'x\u001b[2J\u009b31m', 'x\\u001b[2J\\u009b31m'],
    ['NUL, DEL and NEL', '\u0000\u007f\u0085', '\\u0000\\u007f\\u0085'],
    ['the separators of lines and paragraphs', 'x\u2028y\u2029', 'x\\u2028y\\u2029'],
    ['a turn of the direction of writing', 'x\u202ey\u2066', 'x\\u202ey\\u2066'],
    ['nothing of the kind', 'Köln – 5 °C “dry”', 'Köln – 5 °C “dry”'],
  ])('lets nobody write %s', (_, said, written) => {
    const heard = io();
    newLog(heard, () => 0)('warn', said);
    expect(heard.said).toEqual([`1970-01-01T00:00:00Z  warn: ${written}`]);
  });
});
