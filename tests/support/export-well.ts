/**
 * An invented well with something of everything, for packets: acts, entries, papers, and what was
 * measured and told.
 */
import { readPageStyle } from '../../src/server/export/page-style.ts';
import { createHash } from 'node:crypto';
import type { CycleEvent } from '../../shared/api/events.ts';
import type { Entry } from '../../shared/entries/entry.ts';
import { buildExportPage } from '../../src/logbook/export/export.ts';
import type { Sha256, WellRecord } from '../../src/logbook/export/record.ts';
import type { Change } from '../../src/store/store.ts';

/** How the page looks. */
export const STYLE = readPageStyle();
export const sha256: Sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

const DAY_MS = 86_400_000;
/** A Monday, noon UTC. */
export const NOON_MS = Date.UTC(2026, 2, 2, 12);

export const DOCUMENTS = {
  log: Buffer.from('Well log. Static level 41 ft. <script>alert(1)</script> is no HTML here.'),
  photo: Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, 0, 0xff, 0xda, 0, 2, 1, 2, 3, 0xff, 0xd9]),
};

const CARD = {
  well: 'mill',
  site: 'harrow-bend',
  timeZone: 'America/Denver',
  use: 'house',
  pump: {
    kind: 'submersible',
    motor: '1 hp',
    volts: '230 V',
    setDepth: '180 ft',
    maker: 'Tarn & Sons "Deep"',
  },
  switch: { cutIn: '40 psi', cutOut: '60 psi' },
  tank: { volume: '44 gal', precharge: '38 psi' },
};

function entry(n: number, more: Pick<Entry, 'kind' | 'body'> & Partial<Entry>): Entry {
  const id = `00000000-0000-4000-8000-00000000000${n}`;
  return { id, well: 'mill', atMs: NOON_MS + n * 1000, createdMs: NOON_MS + n * 1000, by: 'Ines', ...more };
}

function documentEntry(n: number, bytes: Buffer, name: string, type: string): Entry {
  return entry(n, {
    kind: 'paper',
    body: { hash: sha256(bytes), name, type, bytes: bytes.length, about: 'hole' },
  });
}

const ENTRIES: Entry[] = [
  entry(1, { kind: 'note', body: { text: 'The key hangs <b>in</b> the barn & not in the house' } }),
  entry(2, {
    kind: 'reading',
    body: { what: 'static-level', value: '41 ft', with: 'steel tape', from: 'hand', pinned: true },
  }),
  entry(3, {
    kind: 'work',
    body: { done: 'New pressure switch', parts: ['Switch 40/60'], touched: ['switch'] },
  }),
  documentEntry(4, DOCUMENTS.log, '../../log of the well.txt', 'text/plain'),
  documentEntry(5, DOCUMENTS.photo, 'tank.jpg', 'image/jpeg'),
  entry(6, {
    kind: 'note',
    body: { text: 'Wrong: the key hangs in the shed' },
    replaces: '00000000-0000-4000-8000-000000000001',
  }),
  entry(7, {
    kind: 'check',
    body: { check: 'precharge', outcome: 'put-right', value: '31 psi', left: '38 psi' },
  }),
  entry(8, {
    kind: 'water-test',
    body: {
      laboratory: 'County laboratory',
      results: [
        { analyte: 'Nitrate', value: '12', unit: 'mg/L as N' },
        { analyte: 'Total coliform', value: 'absent' },
      ],
    },
  }),
];

function cycle(n: number): WellRecord['cycles'][number] {
  const startedMs = NOON_MS - 20 * DAY_MS + n * 6 * 3_600_000;
  const event: CycleEvent = {
    event: 'cycle',
    well: 'mill',
    pump: 'p1',
    started: new Date(startedMs).toISOString(),
    stopped: new Date(startedMs + 118_000).toISOString(),
    ranS: 118,
    amps: 7.9 + (n % 7) / 100,
    cutInKpa: 275.9 + (n % 3),
    cutOutKpa: 413.4,
    flags: [],
  };
  return {
    event,
    startedMs,
    stoppedMs: startedMs + 118_000,
    shape: { everyS: 3, amps: [8, null, 7.9], kpa: [276, 300, null] },
  };
}

/** Twenty days, three weeks before the card's own noon. */
export function millRecord(): WellRecord {
  const cycles = Array.from({ length: 80 }, (_, n) => cycle(n));
  const dates = Array.from({ length: 20 }, (_, n) => NOON_MS - (20 - n) * DAY_MS);
  return {
    well: 'mill',
    acts: [
      act('a1', NOON_MS - 30 * DAY_MS, {
        kind: 'card-changed',
        card: { ...CARD, switch: { cutIn: '30 psi', cutOut: '50 psi' } },
      }),
      act('v1', NOON_MS - 10 * DAY_MS, { kind: 'visit-opened', well: 'mill' }),
      act('v2', NOON_MS - 10 * DAY_MS + 3_600_000, { kind: 'visit-closed', well: 'mill' }),
      act('a2', NOON_MS - 2000, { kind: 'pinned', well: 'mill', pump: 'p1', amps: '7.9 A' }),
      act('a3', NOON_MS, { kind: 'card-changed', card: CARD }),
    ],
    entries: ENTRIES,
    baselines: [
      {
        atMs: NOON_MS - 2000,
        event: {
          event: 'baseline',
          well: 'mill',
          pump: 'p1',
          at: new Date(NOON_MS - 2000).toISOString(),
          amps: 7.93,
          ampsSpread: 0.04,
          cutInKpa: 276,
          cutOutKpa: 413,
          ranS: 118,
          cyclesPerDay: 4,
          pinned: true,
        },
      },
    ],
    days: dates.map((ms, n) => ({
      endedMs: ms + 12 * 3_600_000,
      event: {
        event: 'day',
        well: 'mill',
        pump: 'p1',
        date: new Date(ms).toISOString().slice(0, 10),
        cycles: 4,
        ranS: 472,
        heardS: 86_400,
        ampsMedian: 7.9 + n / 100,
      },
    })),
    cycles,
    alarms: [
      {
        id: `mill/p1/short-cycling/${NOON_MS - 5 * DAY_MS}`,
        well: 'mill',
        pump: 'p1',
        alarm: 'short-cycling',
        state: 'unacknowledged',
        sinceMs: NOON_MS - 5 * DAY_MS,
        raisedMs: NOON_MS - 5 * DAY_MS + 60_000,
        event: {
          event: 'alarm',
          well: 'mill',
          pump: 'p1',
          alarm: 'short-cycling',
          state: 'raised',
          at: new Date(NOON_MS - 5 * DAY_MS + 60_000).toISOString(),
          since: new Date(NOON_MS - 5 * DAY_MS).toISOString(),
          priority: 'soon',
          why: '14 starts in 18 min; normal is 1',
          evidence: { starts: 14, inS: 1080, normal: 1 },
          causes: [{ cause: 'tank-air-lost', weight: 0.8 }],
        },
      },
    ],
  };
}

function act(
  id: string,
  atMs: number,
  body: { kind: string; [more: string]: unknown },
): WellRecord['acts'][number] {
  return { id, atMs, by: 'Ines', well: 'mill', kind: body.kind, body };
}

/** What makes a store hold it as its own. */
export function millChanges(): Change[] {
  const record = millRecord();
  return [
    ...record.acts.map((row): Change => ({ change: 'act', row })),
    ...record.entries.map((row): Change => ({ change: 'entry', entry: row })),
    ...record.baselines.map((row): Change => ({ change: 'baseline', ...row })),
    ...record.days.map((row): Change => ({ change: 'day', ...row })),
    ...record.cycles.map((row): Change => ({ change: 'cycle', row })),
    ...record.alarms.map((row): Change => ({ change: 'alarm', row })),
  ];
}

/** The page of a well that nobody knows anything of. */
export function smallPage(): string {
  const record = { well: 'creek', acts: [], entries: [], baselines: [], days: [], cycles: [], alarms: [] };
  return buildExportPage({
    record,
    style: STYLE,
    sha256,
    hasDocument: () => false,
    readDocument: () => new Uint8Array(),
  });
}
