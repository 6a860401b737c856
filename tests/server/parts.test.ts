import { describe, expect, it } from 'vitest';
import { programVersion } from '../../src/server/install-paths.ts';
import { newRecorder, activeActs } from '../../src/server/record.ts';
import { credentialCache } from '../../src/server/credential-cache.ts';
import type { ActRow, CredentialRow } from '../../src/store/store.ts';
import { parseRecordingLine } from '../../src/core/decode/recording.ts';

const act = (id: string, atMs: number, kind: string, body: object = { kind }): ActRow => ({
  id,
  atMs,
  kind,
  well: 'north',
  body,
});

describe('programVersion', () => {
  it('is that of package.json', () => expect(programVersion()).toMatch(/^\d+\.\d+\.\d+$/));
});

describe('newRecorder', () => {
  it('writes messages and each act once, as lines that the reader of recordings takes', () => {
    const lines: string[] = [];
    const recorder = newRecorder(
      (line) => lines.push(line),
      () => Date.UTC(2026, 0, 5),
    );
    recorder.message('wells/barn/presence', new TextEncoder().encode('"here"'), { retained: true });
    recorder.message('wells/barn/readings', Uint8Array.from([0x98, 0x01, 0xff]), { retained: false });
    const rows = [act('a', Date.UTC(2026, 0, 5), 'visit-opened', { kind: 'visit-opened', well: 'north' })];
    recorder.acts(rows);
    recorder.acts(rows);
    expect(recorder.counts).toEqual({ messages: 2, acts: 1 });
    const read = lines.map((line) => parseRecordingLine(new TextEncoder().encode(line)));
    expect(read.map((r) => r.is)).toEqual(['act', 'message', 'message']);
    const [, first, second] = read;
    expect(first!.is === 'message' && first!.retained).toBe(true);
    expect(second!.is === 'message' && [...second!.payload]).toEqual([0x98, 0x01, 0xff]);
  });
});

describe('newRecorder', () => {
  it('writes an act before the messages that came after it, though it heard of it later', () => {
    const lines: string[] = [];
    let nowMs = Date.UTC(2026, 0, 5);
    const recorder = newRecorder(
      (line) => lines.push(line),
      () => nowMs,
    );
    const presence = (): void =>
      recorder.message('wells/barn/presence', new TextEncoder().encode('"here"'), { retained: false });
    presence();
    nowMs += 2000;
    presence();
    recorder.acts([act('away', nowMs - 1000, 'server-away', { kind: 'server-away', from: 'x' })]);
    presence();
    recorder.acts([]);
    expect(lines.map((line) => (line.includes('server-away') ? 'act' : 'message'))).toEqual([
      'message',
      'act',
      'message',
      'message',
    ]);
  });
});

describe('standingActs', () => {
  it.each<[string, [kind: string, body?: object][], string[]]>([
    ['an open visit', [['visit-opened']], ['visit-opened']],
    ['not a closed one', [['visit-opened'], ['visit-closed']], []],
    ['pins', [['pinned'], ['pinned']], ['pinned', 'pinned']],
    [
      'not those before a new start',
      [['pinned'], ['visit-closed', { newBaseline: true }], ['pinned']],
      ['pinned'],
    ],
    [
      'those before a visit that changed nothing',
      [['pinned'], ['visit-closed', { newBaseline: false }]],
      ['pinned'],
    ],
    ['a lay-up without end', [['laid-up']], ['laid-up']],
    ['not one that is over', [['laid-up', { until: '1970-01-01T00:00:00.010Z' }]], []],
    ['not what is in service again', [['out-of-service'], ['back-in-service']], []],
    ['what is expected for longer', [['expected', { until: '1970-01-02T00:00:00Z' }]], ['expected']],
    ['not what was seen', [['acknowledged'], ['shelved'], ['tick'], ['server-away']], []],
  ])('opens with %s', (_name, rows, kinds) => {
    const acts = rows.map(([kind, body], at) => act(String(at), at, kind, { kind, ...body }));
    expect(activeActs(acts, 50).map((row) => row.kind)).toEqual(kinds);
  });

  it('opens with the newest card of each well, told as of now', () => {
    const rows = [act('a', 1, 'card-changed', { n: 1 }), act('b', 2, 'card-changed', { n: 2 })];
    const opening = activeActs(rows, 50);
    expect(opening.filter((row) => row.kind === 'card-changed').map((row) => [row.atMs, row.body])).toEqual([
      [50, { n: 2 }],
    ]);
  });
});

describe('credentialBook', () => {
  const row = (node: string): CredentialRow => ({ node, secret: 's', createdMs: 0, speaksFor: [] });

  it('finds a node added meanwhile at once, and forgets a removed one within seconds', async () => {
    let rows = [row('a')];
    let looks = 0;
    let nowMs = 0;
    const { find, lastRead } = credentialCache(
      { credentials: () => (looks++, Promise.resolve(rows)) },
      () => nowMs,
    );
    expect(lastRead('a')).toBeUndefined();
    // A thousand that come at once wait for one look.
    const found = await Promise.all(Array.from({ length: 1000 }, () => find('a')));
    expect(found.every((one) => one?.node === 'a')).toBe(true);
    for (let i = 0; i < 1000; i++) expect((await find('a'))?.node).toBe('a');
    expect(looks).toBe(1);
    expect(lastRead('a')?.node).toBe('a');
    rows = [row('b')];
    expect((await find('b'))?.node).toBe('b');
    nowMs = 2001;
    expect(await find('a')).toBeUndefined();
  });
});
