import { describe, expect, it } from 'vitest';
import type { Io } from '../../src/cli/command.ts';
import { newLog } from '../../src/cli/server-log.ts';

function io(): Io & { said: string[] } {
  const said: string[] = [];
  return { said, out: (line) => said.push(line), err: (line) => said.push(line), env: {}, progress: false };
}

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
