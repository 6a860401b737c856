import { describe, expect, test } from 'vitest';
import { newNode, receiveHello, receivePack, type NodeState } from '../../../src/core/readings/node.ts';
import { retainedHelloAgrees, placePack, spanOf } from '../../../src/core/readings/clock.ts';
import { hello, NOON, pack, type PackSpec } from '../../support/packs.ts';

const S = 1000;
const HOUR = 3600 * S;

/**
 * Sends packs of three readings a second and shows where each was placed: its last reading against
 * `NOON`, in s.
 */
function placedAt(state: NodeState, rows: (PackSpec & { atMs: number })[]): string[] {
  return rows.map(({ atMs, ...notes }) => {
    const receipt = receivePack(state, pack(notes), atMs);
    if (receipt.is === 'duplicate') return 'duplicate';
    const { placed } = receipt;
    const lastS = (placed.columns[0]!.times.at(-1)! - NOON) / S;
    const marks = [
      placed.clockStep && 'step',
      placed.timeUnknown && 'unknown',
      placed.shiftMs !== undefined && 'overruled',
    ];
    return [`${lastS}`, ...marks.filter(Boolean)].join(' ');
  });
}

describe('a clock is believed', () => {
  test.each([
    ['at once', 0, 12, '2'],
    ['a day late', 0, 86_400, '2'],
    ['up to 300 s ahead of its arrival', 300, 2, '302'],
  ])('%s', (_, fromS, arrivesS, where) => {
    const rows = [{ boot: 1, seq: 1, fromMs: NOON + fromS * S, atMs: NOON + arrivesS * S }];
    expect(placedAt(newNode('barn'), rows)).toEqual([where]);
  });
});

describe('a wrong clock is overruled by the arrival of the first copy', () => {
  test.each([
    ['over 300 s ahead', NOON + 301 * S],
    ['before 2024', Date.UTC(2023, 11, 31)],
    ['in 1970', 5 * S],
  ])('%s', (_, fromMs) => {
    expect(placedAt(newNode('barn'), [{ boot: 1, seq: 1, fromMs, atMs: NOON }])).toEqual([
      '0 step overruled',
    ]);
  });

  test('before its firmware was built', () => {
    const state = newNode('barn');
    receiveHello(state, hello({ built: '2026-03-01', boot: 1 }), false, NOON - 5 * S);
    const rows = [
      { boot: 1, seq: 1, fromMs: Date.UTC(2026, 1, 28), atMs: NOON },
      { boot: 1, seq: 2, fromMs: Date.UTC(2026, 2, 1), atMs: NOON + 10 * S },
    ];
    expect(placedAt(state, rows)).toEqual(['0 step overruled', '-129598 step']);
  });

  test('behind an earlier seq of the same boot, and it stays wrong until it steps again', () => {
    const rows = [
      { boot: 1, seq: 1, fromMs: NOON, atMs: NOON + 3 * S },
      // An hour back: placed by arrival, in one segment although the network delays differ.
      { boot: 1, seq: 2, fromMs: NOON - HOUR + 10 * S, atMs: NOON + 13 * S },
      { boot: 1, seq: 3, fromMs: NOON - HOUR + 20 * S, atMs: NOON + 24 * S },
      { boot: 1, seq: 4, fromMs: NOON - HOUR + 30 * S, atMs: NOON + 33 * S },
      { boot: 1, seq: 5, fromMs: NOON + 40 * S, atMs: NOON + 43 * S },
      { boot: 1, seq: 6, fromMs: NOON + 50 * S, atMs: NOON + 53 * S },
    ];
    expect(placedAt(newNode('barn'), rows)).toEqual([
      '2',
      '13 step overruled',
      '23 overruled',
      '33 overruled',
      '42 step',
      '52',
    ]);
  });

  test('a clock that crept up to its last trusted time is still wrong', () => {
    const state = newNode('barn');
    const rows = [{ boot: 1, seq: 1, fromMs: NOON, atMs: NOON + 3 * S }];
    for (let i = 1; i <= 70; i++) {
      rows.push({ boot: 1, seq: 1 + i, fromMs: NOON - HOUR + i * 60 * S, atMs: NOON + i * 60 * S + 3 * S });
    }
    expect(placedAt(state, rows).at(-1)).toBe(`${70 * 60 + 3} overruled`);
  });

  test('up to 300 s behind an earlier seq is believed', () => {
    const rows = [
      { boot: 1, seq: 1, fromMs: NOON, atMs: NOON + 3 * S },
      { boot: 1, seq: 2, fromMs: NOON - 290 * S, atMs: NOON + 13 * S },
    ];
    expect(placedAt(newNode('barn'), rows)).toEqual(['2', '-288']);
  });

  test('an earlier seq that comes later is compared with earlier ones alone', () => {
    const rows = [
      { boot: 1, seq: 1, fromMs: NOON, atMs: NOON + 3 * S },
      { boot: 1, seq: 900, fromMs: NOON + 2 * HOUR, atMs: NOON + 2 * HOUR + 3 * S },
      { boot: 1, seq: 2, fromMs: NOON + 10 * S, atMs: NOON + 2 * HOUR + 4 * S },
    ];
    expect(placedAt(newNode('barn'), rows)).toEqual(['2', '7202', '12']);
  });

  test('another boot is judged by itself', () => {
    const rows = [
      { boot: 1, seq: 1, fromMs: NOON, atMs: NOON + 3 * S },
      { boot: 2, seq: 1, fromMs: NOON - HOUR, atMs: NOON + 13 * S },
    ];
    expect(placedAt(newNode('barn'), rows)).toEqual(['2', '-3598']);
  });
});

describe('a node without a clock', () => {
  const up = (seq: number, upS: number): PackSpec => ({
    boot: 1,
    seq,
    clock: 'up',
    upMs: upS * S,
    fromMs: -2 * S,
  });

  test('is placed by when its boot began, the backlog of an outage too', () => {
    const state = newNode('barn');
    receiveHello(state, hello({ boot: 1, upMs: 2 * S }), false, NOON);
    const rows = [
      { ...up(1, 12), atMs: NOON + 10.3 * S },
      { ...up(2, 22), atMs: NOON + 2 * HOUR },
      { ...up(3, 32), atMs: NOON + 2 * HOUR + 50 },
      { ...up(4, 7212), atMs: NOON + 7210.2 * S },
    ];
    expect(placedAt(state, rows)).toEqual(['10', '20', '30', '7210']);
  });

  test('may change to UTC within a boot', () => {
    const state = newNode('barn');
    receiveHello(state, hello({ boot: 1, upMs: 2 * S }), false, NOON);
    const rows = [
      { ...up(1, 12), atMs: NOON + 10.3 * S },
      { boot: 1, seq: 2, fromMs: NOON + 18 * S, atMs: NOON + 20.2 * S },
      { ...up(3, 32), atMs: NOON + 30.3 * S },
    ];
    expect(placedAt(state, rows)).toEqual(['10', '20', '30']);
  });

  test('an old boot that was heard live is placed after the reboot; one that never was is unknown', () => {
    const state = newNode('barn');
    receiveHello(state, hello({ boot: 1, upMs: 2 * S }), false, NOON);
    receiveHello(state, hello({ boot: 3, upMs: 2 * S }), false, NOON + HOUR);
    const rows = [
      { ...up(1, 12), atMs: NOON + HOUR + 1 * S },
      { ...up(1, 12), boot: 2, atMs: NOON + HOUR + 2 * S },
      { ...up(1, 12), boot: 3, atMs: NOON + HOUR + 10 * S },
    ];
    expect(placedAt(state, rows)).toEqual(['10', '3602 unknown', '3610']);
    expect(state.counts.timeUnknown).toBe(1);
  });

  test('a retained copy of a hello says nothing of when the boot began', () => {
    const state = newNode('barn');
    receiveHello(state, hello({ boot: 1, upMs: 2 * S }), true, NOON + HOUR);
    expect(placedAt(state, [{ ...up(361, 3612), atMs: NOON + HOUR + 10 * S }])).toEqual(['3610 unknown']);
  });

  test('a live hello that was passed on with its retain mark counts once its packs agree', () => {
    const state = newNode('barn');
    receiveHello(state, hello({ boot: 1, upMs: 2 * S }), true, NOON);
    expect(placedAt(state, [{ ...up(1, 12), atMs: NOON + 10.3 * S }])).toEqual(['10']);
  });

  test('without uptime its times count from arrival', () => {
    const rows = [{ boot: 1, seq: 1, clock: 'arrival' as const, fromMs: -2 * S, atMs: NOON }];
    expect(placedAt(newNode('barn'), rows)).toEqual(['0']);
  });

  test('without a boot its times count from arrival', () => {
    const state = newNode('barn');
    const rows = [{ clock: 'up' as const, upMs: 5 * S, fromMs: -2 * S, atMs: NOON }];
    expect(placedAt(state, rows)).toEqual(['0']);
  });
});

test('copyAgrees: yes, no, and not yet for a backlog', () => {
  const copy = { arrivalMs: NOON, upMs: 0 };
  expect(retainedHelloAgrees(copy, 60 * S, NOON + 61 * S)).toBe('yes');
  expect(retainedHelloAgrees(copy, 60 * S, NOON + 20 * S)).toBe('no');
  expect(retainedHelloAgrees(copy, 60 * S, NOON + HOUR)).toBe('not-yet');
});

test('placePack leaves the pack as it was', () => {
  const given = pack({ boot: 1, seq: 1, fromMs: 5 * S });
  const before = structuredClone(given);
  placePack(given, undefined, NOON, 0);
  expect(given).toEqual(before);
});

test('spanOf takes the first and last of all columns', () => {
  const { columns } = pack({ fromMs: 10, everyMs: 5 });
  expect(spanOf([...columns, ...pack({ fromMs: 3, everyMs: 1 }).columns])).toEqual({ fromMs: 3, toMs: 20 });
});
