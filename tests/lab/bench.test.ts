/**
 * The bench's parts at tiny sizes: that they do what they say. `npm run bench`
 * (src/lab/bench/main.ts) puts them together, in processes of their own (src/lab/bench/child.ts).
 */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { benchDisk } from '../../src/lab/bench/disk.ts';
import { benchEndToEnd, benchNotice } from '../../src/lab/bench/end-to-end.ts';
import { benchEngine } from '../../src/lab/bench/engine.ts';
import { connectFrame, publishFrame } from '../../src/lab/bench/frames.ts';
import { runLoad } from '../../src/lab/bench/load.ts';
import { benchPack, makeTrack, PACK_S } from '../../src/lab/bench/packs.ts';
import { benchReplay } from '../../src/lab/bench/replay.ts';
import { benchStages } from '../../src/lab/bench/stages.ts';
import { readMessage } from '../../src/core/decode/read-message.ts';

const MAIN = fileURLToPath(new URL('../../dist/main.js', import.meta.url));
const SIZES = { connections: 3, nodesEach: 2, packsEach: 6, warmUpEach: 2 };

describe('the packs of the bench', () => {
  it('are the contract’s: 20 readings of two channels', () => {
    const fromMs = Date.UTC(2026, 0, 5);
    const payload = benchPack(makeTrack(600, 5), { name: 'bench-1', offset: 30 }, 3, fromMs);
    const read = readMessage({
      root: 'wells',
      topic: 'wells/bench-1/readings',
      payload,
      retained: false,
      arrivalMs: fromMs,
    });
    expect(read).toMatchObject({ is: 'pack', pack: { node: 'bench-1', seq: 3, clock: 'utc' } });
    if (read.is !== 'pack') return;
    expect(read.pack.columns.map((c) => [c.channel, c.values.length])).toEqual([
      ['current', PACK_S],
      ['pressure', PACK_S],
    ]);
    expect(read.pack.columns[0]!.times[0]).toBe(fromMs + 2 * PACK_S * 1000);
  });

  it('go out in frames of MQTT 3.1.1, sections 3.1 and 3.3', () => {
    expect([...connectFrame('a')]).toEqual([0x10, 13, 0, 4, 0x4d, 0x51, 0x54, 0x54, 4, 2, 0, 0, 0, 1, 0x61]);
    const frame = publishFrame('t', new Uint8Array(200), 258);
    // 1 + 2 (topic) + 2 (packet identifier) + 200 = 205 = 77 + 1 x 128.
    expect([...frame.subarray(0, 8)]).toEqual([0x32, 205, 1, 0, 1, 0x74, 1, 2]);
    expect(frame).toHaveLength(3 + 205);
  });
});

describe('the figures of the bench', () => {
  const positive = (figures: object): void => {
    for (const [name, value] of Object.entries(figures)) expect(value, name).toBeGreaterThan(0);
  };

  it('of the stations', async () => positive(await benchStages(400, 10)));
  it('of the engine', () => {
    const figures = benchEngine(1, 3);
    expect(figures.events).toBeGreaterThan(0);
    expect(figures.stateBytes).toBeGreaterThan(500);
    expect(figures.readingsPerS).toBeGreaterThan(0);
  });
  it('of the disk', async () => {
    const figures = await benchDisk(2, 5);
    // Four wells, two channels, a reading each 5 s, in whole packs of 250 moments.
    expect(figures.readings).toBe(4 * 2 * 250 * Math.floor((2 * 86_400) / 1250));
    positive(figures);
  });
  it('of the whole line, against a subscriber that does nothing', async () => {
    const whole = await benchEndToEnd(SIZES);
    positive(whole);
    expect(whole.wells).toBe(SIZES.connections * SIZES.nodesEach);
    expect(whole.ratio).toBeCloseTo(whole.oursPerS / whole.noOpPerS, 9);
  });
  it('of a notice: taps that run dry are told', async () => {
    const delay = await benchNotice({ connections: 2, nodesEach: 4, packsEach: 30, warmUpEach: 6 }, 500);
    expect(delay.notices).toBeGreaterThan(0);
    expect(delay.p99Ms).toBeGreaterThanOrEqual(delay.medianMs);
  });
  it('of replay', async () => {
    expect(existsSync(MAIN)).toBe(true);
    const figures = await benchReplay(MAIN, 0.02);
    expect(figures.readings).toBe(0.02 * 86_400 * 2);
    expect(figures.readingsPerS).toBeGreaterThan(0);
  });
  it('need a broker to send to', async () => {
    const order = { ...SIZES, port: 1, perSecond: 0, dryNodeEvery: 0 };
    await expect(runLoad(order, () => undefined, Promise.resolve(), Promise.resolve())).rejects.toThrow(
      'ECONNREFUSED',
    );
  });
});
