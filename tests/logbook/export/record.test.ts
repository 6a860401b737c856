import { entriesOf, type Entry } from '../../../shared/entries/entry.ts';
import { describe, expect, test } from 'vitest';
import { referencedNodes } from '../../../src/logbook/export/referenced-nodes.ts';
import { readRecord } from '../../../src/logbook/export/read-record.ts';
import {
  newestMs,
  documentsIn,
  serializeRecord,
  type WellRecord,
} from '../../../src/logbook/export/record.ts';
import { millRecord, NOON_MS, DOCUMENTS, sha256 } from '../../support/export-well.ts';

const print = (record: WellRecord): string => serializeRecord(record, sha256);
const problem = (text: string): string => {
  const read = readRecord(text, sha256);
  return 'problem' in read ? read.problem : 'taken';
};

/** The mill's record with a line changed, and its end made to fit again. */
function withLine(change: (line: Record<string, unknown>) => object | undefined): string {
  const lines = print(millRecord()).trimEnd().split('\n').slice(0, -1);
  const changed = lines.map((line) => {
    const json = JSON.parse(line) as Record<string, unknown>;
    return JSON.stringify(change(json) ?? json);
  });
  const text = changed.map((line) => `${line}\n`).join('');
  const end = { is: 'end', lines: changed.length, sha256: sha256(new TextEncoder().encode(text)) };
  return `${text}${JSON.stringify(end)}\n`;
}

/** Changes the row of the first line of a kind. */
function withRow(kind: string, more: (row: Record<string, unknown>) => object): string {
  let done = false;
  return withLine(({ is, row }) => {
    if (is !== kind || done) return undefined;
    done = true;
    return { is, row: { ...(row as object), ...more(row as Record<string, unknown>) } };
  });
}

test('a record is read back as what was written, to the letter', () => {
  const text = print(millRecord());
  const read = readRecord(text, sha256);
  if ('problem' in read) throw new Error(read.problem);
  expect(read.record).toEqual(millRecord());
  expect(print(read.record)).toBe(text);
});

describe('a record is refused', () => {
  const head = (more: object): string =>
    withLine((line) => (line['is'] === 'stillwell-record' ? { ...line, ...more } : undefined));
  const rows: [why: string, text: string, says: RegExp][] = [
    ['that is something else', 'hello', /line 1 is not JSON/],
    ['without a head', '{"is":"act"}\n', /does not begin as a well’s record does/],
    [
      'of a newer version',
      head({ version: 2 }),
      /made by a newer Stillwell \(format 2; this one reads up to 1\)/,
    ],
    ['of no version', head({ version: 0 }), /there is no format 0/],
    ['with a name that is a path', head({ well: '../etc' }), /must be 1 to 40 of a-z/],
    ['of another well than its lines', head({ well: 'barn' }), /line 2: is of another well, mill/],
    ['cut off', print(millRecord()).slice(0, 5_000), /end is missing/],
    ['without its last line', print(millRecord()).replace(/[^\n]*\n$/, ''), /end is missing/],
    [
      'changed in one letter',
      print(millRecord()).replace('in the shed', 'in the barn'),
      /hash does not match/,
    ],
    [
      'with a line of nothing',
      withLine((l) => (l['is'] === 'day' ? { is: 'dream' } : undefined)),
      /line 16, is/,
    ],
    [
      'with an impossible card',
      withRow('act', (row) => ({
        body: { ...(row['body'] as object), card: { well: 'mill', pump: { motor: '1 psi' } } },
      })),
      /line 2: .*pump.motor must be a power/,
    ],
    [
      'with an act that is another',
      withRow('act', () => ({ kind: 'tick' })),
      /is written as tick and is card-changed/,
    ],
    [
      'with an act of no well',
      withRow('act', () => ({ kind: 'tick', body: { kind: 'tick' } })),
      /tick is no act of a well/,
    ],
    [
      'with an entry of the future',
      withRow('entry', () => ({ atMs: NOON_MS * 2 })),
      /at must be in the past/,
    ],
    ['with an entry of no kind', withRow('entry', () => ({ kind: 'secret' })), /line 7, row.kind/],
    [
      'with an entry twice',
      withRow('entry', () => ({ id: '00000000-0000-4000-8000-000000000002' })),
      /is there twice/,
    ],
    [
      'with a paper that is a path',
      withRow('entry', () => ({ kind: 'paper', body: { hash: '../../x', name: 'x', type: 'x', bytes: 1 } })),
      /hash must be the SHA-256/,
    ],
    ['with a cycle of letters', withRow('cycle', () => ({ startedMs: 'soon' })), /row.startedMs/],
    ['with an alarm of another well', withRow('alarm', () => ({ well: 'barn' })), /is of another well, barn/],
    [
      'with a line of a megabyte',
      withRow('entry', () => ({ body: { text: 'x'.repeat(1_000_000) } })),
      /is longer than/,
    ],
  ];
  test.each(rows)('%s', (_, text, says) => expect(problem(text)).toMatch(says));
});

test('it is dated by the newest that it knows of', () => {
  expect(newestMs(millRecord())).toBe(NOON_MS + 8_000);
  const nothing = { well: 'x', acts: [], entries: [], baselines: [], days: [], cycles: [], alarms: [] };
  expect(newestMs(nothing)).toBeUndefined();
});

test('a paper that was struck out is not handed on, unless something else still names it', () => {
  const record = millRecord();
  const [log, photo] = [sha256(DOCUMENTS.log), sha256(DOCUMENTS.photo)];
  expect(documentsIn(record)).toEqual([log, photo].toSorted());
  const paper = entriesOf(record.entries, 'paper').find(({ body }) => body.hash === log)!;
  const struck: Entry = { ...paper, id: 's', kind: 'struck', replaces: paper.id, body: {} };
  const without = { ...record, entries: [...record.entries, struck] };
  expect(documentsIn(without)).toEqual([photo]);
  const check: Entry = {
    ...paper,
    id: 'c',
    kind: 'check',
    body: { check: 'tank', outcome: 'right', papers: [log] },
  };
  expect(documentsIn({ ...without, entries: [...without.entries, check] })).toEqual([log, photo].toSorted());
});

test('the nodes of a well are its own and those that its cards ever named', () => {
  const card = { well: 'mill', reads: { pressure: 'pumphouse:pressure' } };
  expect(
    [...referencedNodes('mill', [{ kind: 'card-changed', body: { kind: 'card-changed', card } }])].toSorted(),
  ).toEqual(['mill', 'pumphouse']);
  expect([...referencedNodes('mill', [])]).toEqual(['mill']);
});
