import { describe, expect, it } from 'vitest';
import { programVersion } from '../../src/run/place.ts';
import { newRecorder, standingActs } from '../../src/run/record.ts';
import { credentialBook } from '../../src/run/credential-book.ts';
import type { ActRow, CredentialRow } from '../../src/store/store.ts';
import { parseRecordingLine } from '../../src/wire/recording.ts';

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
    expect(read.map((r) => r.is)).toEqual(['message', 'message', 'act']);
    const [first, second] = read;
    expect(first!.is === 'message' && first!.retained).toBe(true);
    expect(second!.is === 'message' && [...second!.payload]).toEqual([0x98, 0x01, 0xff]);
  });
});

describe('standingActs', () => {
  it('opens with the newest card of each well, told as of now', () => {
    const rows = [act('a', 1, 'card-changed', { n: 1 }), act('b', 2, 'card-changed', { n: 2 })];
    const opening = standingActs(rows, 50);
    expect(opening.filter((row) => row.kind === 'card-changed').map((row) => [row.atMs, row.body])).toEqual([
      [50, { n: 2 }],
    ]);
  });
});

describe('credentialBook', () => {
  const row = (node: string): CredentialRow => ({ node, secret: 's', madeMs: 0, speaksFor: [] });

  it('finds a node added meanwhile at once, and forgets a removed one within seconds', () => {
    let rows = [row('a')];
    let looks = 0;
    let nowMs = 0;
    const find = credentialBook({ credentials: () => (looks++, rows) }, () => nowMs);
    for (let i = 0; i < 1000; i++) expect(find('a')?.node).toBe('a');
    expect(looks).toBe(1);
    rows = [row('b')];
    expect(find('b')?.node).toBe('b');
    nowMs = 2001;
    expect(find('a')).toBeUndefined();
  });
});
