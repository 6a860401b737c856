import { mkdtempSync, rmSync, truncateSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openLogbookService } from '../../../src/server/logbook-service.ts';
import { openWellExports } from '../../../src/server/export/well-exports.ts';
import { openStore } from '../../../src/store/open-store.ts';
import type { Change } from '../../../src/store/store.ts';
import { openDocuments } from '../../../src/store/document-files.ts';

let folder = '';
beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), 'wellExports-'))));
afterEach(() => rmSync(folder, { recursive: true }));

test('a paper that went bad keeps no well from being handed over, and the page says which it is', async () => {
  const [store, papers, now] = [openStore(':memory:'), openDocuments(folder), () => Date.UTC(2026, 4, 2)];
  const logbook = openLogbookService({ store, documents: papers, now });
  const hashes: string[] = [];
  for (const text of ['log of the well', 'receipt']) {
    const kept = await logbook.addDocument('orchard', { bytes: Buffer.from(text), name: `${text}.txt` });
    if (!('entry' in kept)) throw new Error(kept.problem);
    hashes.push(kept.entry.body.hash);
  }
  truncateSync(join(folder, hashes[0]!.slice(0, 2), hashes[0]!), 3);
  const wellExports = openWellExports({
    store,
    documents: papers,
    now,
    commit: async (plan) => {
      await store.commit(await plan());
      return undefined;
    },
    writeCard: () => Promise.resolve(),
  });
  const zip = Buffer.concat([...(await wellExports.zip('orchard'))]).toString('latin1');
  expect(zip).toContain(`papers/${hashes[1]!.slice(0, 16)}-receipt.txt`);
  expect(zip).not.toContain(`papers/${hashes[0]!.slice(0, 16)}`);
  const page = await wellExports.page('orchard');
  expect(page.match(/not available when this file was made/gu)).toHaveLength(1);
  expect(page).toContain('log of the well.txt');
  await store.close();
});

const DAY_MS = 86_400_000;
const NOON = Date.UTC(2026, 4, 2, 12);

/** A Stillwell of cards and calibrations alone. */
async function stillwell(wells: Record<string, object>, calibrated: readonly string[] = []) {
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
  await store.commit([...cards, ...acts]);
  const wellExports = openWellExports({
    store,
    documents: openDocuments(folder),
    now: () => NOON,
    commit: async (plan) => {
      await store.commit(await plan());
      return undefined;
    },
    writeCard: () => Promise.resolve(),
  });
  return { store, wellExports };
}

const inputs = async ({ store }: Awaited<ReturnType<typeof stillwell>>): Promise<string[]> =>
  (await store.acts({ fromMs: 0 })).filter(({ kind }) => kind === 'calibrated').map(({ id }) => id);

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
])('a calibration that comes with a packet, where %s', async (_, wells, calibrated, expected, reported) => {
  const from = await stillwell({ north: { current: 'node-1:current' } }, ['node-1']);
  const page = Buffer.from(await from.wellExports.page('north'));
  const here = await stillwell(wells, calibrated);
  const taken = await here.wellExports.importFile(page, { sameWell: false });
  if ('problem' in taken) throw new Error(taken.problem);
  expect(await inputs(here)).toEqual(expected);
  expect(taken.summary.some((one) => /reads from node-1, and so does .* here/u.test(one))).toBe(reported);
  // Without loss all the same.
  expect(await here.wellExports.page('north')).toBe(await from.wellExports.page('north'));
});

/** The page of the one well, as a file that can be handed over and is gone then. */
const pageOf = async (from: Awaited<ReturnType<typeof stillwell>>): Promise<Buffer> =>
  Buffer.from(await from.wellExports.page('north'));

test('the loop runs on while a packet is opened, and a second one waits for its turn', async () => {
  const page = await pageOf(await stillwell({ north: {} }));
  const here = await stillwell({});
  const order: string[] = [];
  const first = here.wellExports.importFile(page, { sameWell: false }).then((taken) => {
    order.push('taken');
    return taken;
  });
  const second = here.wellExports.importFile(Buffer.from(page), { sameWell: false });
  await new Promise((done) => setImmediate(done));
  order.push('a turn of the loop');
  expect(await second).toEqual({
    problem: expect.stringMatching(/another import is running/u) as string,
  });
  expect(await first).toMatchObject({ well: 'north', isNew: true });
  expect(order).toEqual(['a turn of the loop', 'taken']);
  // And the next one is taken again.
  expect(await here.wellExports.importFile(await pageOf(here), { sameWell: false })).toMatchObject({
    isNew: false,
  });
});

test('the bytes of a packet are handed over and not copied', async () => {
  const page = Uint8Array.from(await pageOf(await stillwell({ north: {} })));
  const taking = (await stillwell({})).wellExports.importFile(page, { sameWell: false });
  expect(page.length).toBe(0);
  expect(await taking).toMatchObject({ well: 'north' });
});

test('a packet of more rows than come over at once comes whole', async () => {
  const from = await stillwell({ north: { current: 'node-1:current' } });
  const points = [
    [0, 0],
    [8, 9],
  ];
  await from.store.commit(
    Array.from({ length: 1_203 }, (_, n): Change => {
      const body = { kind: 'calibrated', node: 'node-1', channel: 'current', points };
      return {
        change: 'act',
        row: { id: `act-${n}`, atMs: NOON - DAY_MS + n, node: 'node-1', kind: 'calibrated', body },
      };
    }),
  );
  const here = await stillwell({});
  expect(await here.wellExports.importFile(await pageOf(from), { sameWell: false })).toMatchObject({
    added: { acts: 1_204 },
  });
  expect(await here.wellExports.page('north')).toBe(await from.wellExports.page('north'));
});

test('what is no packet is refused with the reason, and the next is taken', async () => {
  const here = await stillwell({});
  expect(await here.wellExports.importFile(Buffer.from('hello'), { sameWell: false })).toEqual({
    problem: expect.stringMatching(/neither the ZIP nor the page/u) as string,
  });
  expect(
    await here.wellExports.importFile(await pageOf(await stillwell({ north: {} })), { sameWell: false }),
  ).toMatchObject({
    well: 'north',
  });
});

test.each([
  ['within the days that are run again', 1],
  ['before them', 20],
])(
  'a calibration that no reading can be corrected by, %s, comes with its packet and is passed over',
  async (_, days) => {
    const from = await stillwell({ north: { current: 'node-1:current' } });
    const points = [
      [0, 0],
      [5e-324, 1],
    ];
    const body = { kind: 'calibrated', node: 'node-1', channel: 'current', points };
    const row = { id: 'slip', atMs: NOON - days * DAY_MS, node: 'node-1', kind: body.kind, body };
    await from.store.commit([{ change: 'act', row }]);
    const here = await stillwell({});
    const taken = await here.wellExports.importFile(await pageOf(from), { sameWell: false });
    expect(taken).toMatchObject({ well: 'north', isNew: true, added: { acts: 2 } });
    expect(await inputs(here)).toEqual(['slip']);
    expect(await here.wellExports.page('north')).toBe(await from.wellExports.page('north'));
  },
);
