import { describe, expect, it } from 'vitest';
import type { NodePlan } from '../../../src/lab/score/case.ts';
import type { DeliveredMessage } from '../../../src/lab/score/link.ts';
import {
  newSimulatedNode,
  finishNode,
  handleSample,
  type SimulatedNode,
} from '../../../src/lab/score/node.ts';
import { newChannelPrefix, newRecords, packBytes } from '../../../src/lab/score/pack-bytes.ts';
import type { PlantSample } from '../../../src/lab/plant/params.ts';
import { encodePackJson } from '../../../src/core/decode/senml-json/encode-pack.ts';
import type { Pack } from '../../../src/core/decode/messages.ts';
import { readMessage } from '../../../src/core/decode/read-message.ts';
import { FROM_MS, HOUSE, NODE } from '../support/corpus-cases.ts';

const sampleAt = (tMs: number, more: Partial<PlantSample> = {}): PlantSample => ({
  tMs,
  amps: [[7.91]],
  kpa: 312.4,
  volts: [231],
  temperatureC: 12,
  ...more,
});

/** What arrives of `seconds` from a node, and the node. */
function heard(
  plan: Partial<NodePlan>,
  seconds: number,
  more: (s: number) => Partial<PlantSample> = () => ({}),
): { node: SimulatedNode; all: DeliveredMessage[]; packs: Pack[]; words: string[] } {
  const all: DeliveredMessage[] = [];
  const setUp = { name: 'house', plan: { ...NODE, ...plan }, well: HOUSE, fromMs: FROM_MS };
  const node = newSimulatedNode(setUp, (message) => all.push(message));
  for (let s = 0; s < seconds; s++) handleSample(node, sampleAt(FROM_MS + s * 1000, more(s)));
  finishNode(node);
  const packs: Pack[] = [];
  const words: string[] = [];
  for (const { tstMs, ...message } of all) {
    const read = readMessage({ root: 'wells', ...message, arrivalMs: tstMs });
    if (read.is === 'pack') packs.push(read.pack);
    else words.push(read.is === 'presence' ? read.presence : read.is);
  }
  return { node, all, packs, words };
}

const timesOf = (packs: readonly Pack[], channel: string): number[] =>
  packs.flatMap(({ columns }) =>
    columns.filter((column) => column.channel === channel).flatMap(({ times }) => [...times]),
  );
const secondsOf = (packs: readonly Pack[], channel: string): number[] =>
  timesOf(packs, channel).map((tMs) => (tMs - FROM_MS) / 1000);

describe('a node of the proving ground', () => {
  it('says here and hello, and then packs of ten seconds in order of seq', () => {
    const { packs, words, all, node } = heard({}, 30);
    expect(words).toEqual(['here', 'hello']);
    expect(packs.map(({ seq }) => seq)).toEqual([1, 2, 3]);
    expect(secondsOf(packs, 'current')).toEqual(Array.from({ length: 30 }, (_, s) => s));
    expect([...packs[0]!.columns[1]!.values]).toEqual(Array.from({ length: 10 }, () => 312_400));
    expect(all.every(({ tstMs }, at) => at === 0 || tstMs > all[at - 1]!.tstMs)).toBe(true);
    expect(node.readings).toBe(60);
  });

  it('by exception sends what changed, and all again after a minute', () => {
    const { packs } = heard({ everyS: 0, changeA: 0.5, changeKpa: 5 }, 100, (s) => ({
      amps: [[s < 20 ? 0 : 8]],
      kpa: 300 + s / 10,
    }));
    expect(secondsOf(packs, 'current')).toEqual([0, 20, 80]);
    expect(secondsOf(packs, 'pressure')).toEqual([0, 50]);
  });

  it('sends a sensor out of its span as such, and as news by exception', () => {
    const { packs } = heard({ everyS: 0 }, 30, (s) => (s < 10 ? {} : { kpa: undefined!, kpaFault: 1 }));
    const pressure = packs.flatMap(({ columns }) => columns.filter(({ channel }) => channel === 'pressure'));
    expect(pressure.map(({ faults }) => faults?.[0] ?? 0)).toEqual([0, 1]);
    expect(secondsOf(packs, 'pressure')).toEqual([0, 10]);
  });

  it('holds packs while the network is away and sends the oldest first when it is back', () => {
    const outage = { fromMs: FROM_MS + 60_000, untilMs: FROM_MS + 300_000 };
    const { packs, words, all } = heard({ outages: [outage] }, 400);
    expect(words).toEqual(['here', 'hello', 'gone', 'here', 'hello']);
    expect(packs.map(({ seq }) => seq)).toEqual(Array.from({ length: 40 }, (_, i) => i + 1));
    const during = all.filter(({ tstMs }) => tstMs > outage.fromMs && tstMs < outage.untilMs);
    expect(during.map(({ topic }) => topic)).toEqual(['wells/house/presence']);
    expect(packs[10]!.first).toBe(7);
  });

  it('drops the oldest when it can hold no more, and notes what was lost', () => {
    const day = 86_400;
    const outage = { fromMs: FROM_MS, untilMs: FROM_MS + (day + 3600) * 1000 };
    const { packs, node } = heard({ everyS: 60, packS: 600, outages: [outage] }, day + 7200);
    expect(packs[0]!.seq).toBeGreaterThan(1);
    expect(node.gaps.length).toBe(packs[0]!.seq! - 1);
  });

  it('comes back from a power cut as a new boot, and says before that its supply is gone', () => {
    const cut = { fromMs: FROM_MS + 45_000, untilMs: FROM_MS + 200_000, lastGasp: true };
    const { packs, words, node } = heard({ powerCuts: [cut] }, 300);
    expect(words).toEqual(['here', 'hello', 'no-power', 'here', 'hello']);
    expect(new Set(packs.map(({ boot }) => boot)).size).toBe(2);
    expect(secondsOf(packs, 'current').filter((s) => s >= 40 && s < 203)).toEqual([]);
    expect(node.gaps).toEqual([{ fromMs: FROM_MS + 40_000, untilMs: FROM_MS + 203_000 }]);
  });

  it('without a last gasp leaves it to the Will', () => {
    const cut = { fromMs: FROM_MS + 45_000, untilMs: FROM_MS + 200_000, lastGasp: false };
    const { words } = heard({ powerCuts: [cut] }, 300);
    expect(words).toEqual(['here', 'hello', 'gone', 'here', 'hello']);
  });

  it('without a clock tells its uptime, and times before it', () => {
    const { packs } = heard({ clock: 'none' }, 20);
    expect(packs.map(({ clock }) => clock)).toEqual(['up', 'up']);
    expect(packs.map(({ upMs }) => upMs)).toEqual([12_000, 22_000]);
    expect([...packs[0]!.columns[0]!.times]).toEqual(
      [-9, -8, -7, -6, -5, -4, -3, -2, -1, 0].map((s) => s * 1000),
    );
  });

  it('stamps wrongly while its clock has jumped', () => {
    const jump = { fromMs: FROM_MS + 10_000, untilMs: FROM_MS + 20_000, byS: 7200 };
    const { packs } = heard({ clockJumps: [jump] }, 30);
    expect(packs.map(({ columns }) => (columns[0]!.times[0]! - FROM_MS) / 1000)).toEqual([0, 7210, 20]);
  });

  it('names the lines of three phases and of a second pump as the contract does', () => {
    const pump = HOUSE.pumps.pumps[0]!;
    const well = {
      ...HOUSE,
      pumps: { how: 'alternating' as const, pumps: [{ ...pump, phase: 3 as const }, pump] },
    };
    const all: DeliveredMessage[] = [];
    const also = ['voltage', 'temperature', 'level', 'contact'];
    const node = newSimulatedNode(
      { name: 'two', plan: { ...NODE, extraChannels: also }, well, fromMs: FROM_MS },
      (m) => all.push(m),
    );
    handleSample(
      node,
      sampleAt(FROM_MS, { amps: [[7, 7.1, 7.2], [5]], volts: [230, 231, 229], levelM: 12.5, calls: true }),
    );
    finishNode(node);
    const { tstMs, ...message } = all.at(-1)!;
    const read = readMessage({ root: 'wells', ...message, arrivalMs: tstMs });
    expect(
      read.is === 'pack' && read.pack.columns.map(({ channel, values }) => [channel, values[0]]),
    ).toEqual([
      ['current', 7],
      ['current-2', 7.1],
      ['current-3', 7.2],
      ['p2/current', 5],
      ['pressure', 312_400],
      ['voltage', 230],
      ['voltage-2', 231],
      ['voltage-3', 229],
      ['temperature', 12],
      ['level', 12.5],
      ['contact', 1],
    ]);
  });
});

describe('packBytes', () => {
  it('writes what the encoder of the wire writes', () => {
    const values = [0, 7.91, 0.001, -3.5, 312_400, 1 / 3, 60.25, 1e-9];
    const records = newRecords();
    for (const [at, value] of values.entries()) {
      records.channel[at] = 0;
      records.timeMs[at] = at * 100;
      records.value[at] = value;
      records.n++;
    }
    const stamp = { boot: 17, seq: 4711, first: 4702, baseMs: FROM_MS };
    const bytes = packBytes('house', stamp, [newChannelPrefix('current', 'A')], records);
    const times = Float64Array.from(values, (_, at) => FROM_MS + at * 100);
    const expected = encodePackJson({
      node: 'house',
      clock: 'utc',
      boot: 17,
      seq: 4711,
      first: 4702,
      columns: [{ channel: 'current', times, values: Float64Array.from(values) }],
    });
    expect(new TextDecoder().decode(bytes)).toBe(new TextDecoder().decode(expected));
  });
});
