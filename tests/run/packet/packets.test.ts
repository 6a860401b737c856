import { mkdtempSync, rmSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openDesk } from '../../../src/run/desk.ts';
import { openPackets } from '../../../src/run/packet/packets.ts';
import { openStore } from '../../../src/store/open-store.ts';
import type { Change } from '../../../src/store/store.ts';
import { openPapers } from '../../../src/store/paper-files.ts';

let folder = '';
beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), 'packets-'))));
afterEach(() => rmSync(folder, { recursive: true }));

test('a paper that went bad keeps no well from being handed over, and the page says which it is', () => {
  const [store, papers, now] = [openStore(':memory:'), openPapers(folder), () => Date.UTC(2026, 4, 2)];
  const desk = openDesk({ store, papers, now });
  const hashes = ['log of the well', 'receipt'].map((text) => {
    const kept = desk.addPaper('orchard', { bytes: Buffer.from(text), name: `${text}.txt` });
    if (!('entry' in kept)) throw new Error(kept.no);
    return String(kept.entry.body['hash']);
  });
  truncateSync(join(folder, hashes[0]!.slice(0, 2), hashes[0]!), 3);
  const packets = openPackets({
    store,
    papers,
    now,
    commit: (changes) => store.commit(changes),
    writeCard: () => undefined,
  });
  const zip = Buffer.concat([...packets.zip('orchard')]).toString('latin1');
  expect(zip).toContain(`papers/${hashes[1]!.slice(0, 16)}-receipt.txt`);
  expect(zip).not.toContain(`papers/${hashes[0]!.slice(0, 16)}`);
  const page = packets.page('orchard');
  expect(page.match(/not at hand when this was written/gu)).toHaveLength(1);
  expect(page).toContain('log of the well.txt');
  store.close();
});

const DAY_MS = 86_400_000;
const NOON = Date.UTC(2026, 4, 2, 12);

/** A Stillwell of cards and calibrations alone. */
function stillwell(wells: Record<string, object>, calibrated: readonly string[] = []) {
  const store = openStore(':memory:');
  const act = (id: string, body: { kind: string }, of: object): Change => ({
    change: 'act',
    row: { id, atMs: NOON - (body.kind === 'calibrated' ? 1 : 2) * DAY_MS, ...of, kind: body.kind, body },
  });
  const cards = Object.entries(wells).map(([well, reads]) =>
    act(`card-${well}`, { kind: 'card-changed', card: { well, reads } } as { kind: string }, { well }),
  );
  const points = [
    [0, 0],
    [8, 9],
  ];
  const acts = calibrated.map((node) =>
    act(`calibrated-${node}`, { kind: 'calibrated', node, channel: 'current', points } as { kind: string }, {
      node,
    }),
  );
  store.commit([...cards, ...acts]);
  const packets = openPackets({
    store,
    papers: openPapers(folder),
    now: () => NOON,
    commit: (changes) => store.commit(changes),
    writeCard: () => undefined,
  });
  return { store, packets };
}

const inputs = ({ store }: ReturnType<typeof stillwell>): string[] =>
  store
    .acts({ fromMs: 0 })
    .filter(({ kind }) => kind === 'calibrated')
    .map(({ id }) => id);

test.each<[string, Record<string, object>, readonly string[], string[], boolean]>([
  ['nobody here reads from it: it is an input', {}, [], ['calibrated-node-1'], false],
  [
    'another well here reads from a box of that name: it is past',
    { south: { current: 'node-1:current' } },
    [],
    [],
    true,
  ],
  ['the well of that name here is another: it is past', { 'node-1': {} }, [], [], true],
  [
    'it is known here already, from a well that shares the box: it stays an input',
    { south: { current: 'node-1:current' } },
    ['node-1'],
    ['calibrated-node-1'],
    true,
  ],
])('a calibration that comes with a packet, where %s', (_, wells, calibrated, expected, told) => {
  const from = stillwell({ north: { current: 'node-1:current' } }, ['node-1']);
  const page = Buffer.from(from.packets.page('north'));
  const here = stillwell(wells, calibrated);
  const taken = here.packets.take(page, { same: false });
  if ('no' in taken) throw new Error(taken.no);
  expect(inputs(here)).toEqual(expected);
  expect(taken.said.some((one) => /reads from node-1, and so does .* here/u.test(one))).toBe(told);
  // Without loss all the same.
  expect(here.packets.page('north')).toBe(from.packets.page('north'));
});
