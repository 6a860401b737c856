import { describe, expect, test, vi } from 'vitest';
import { liveShape } from '../../shared/api/live.ts';
import type { LiveMessage } from '../../shared/api/live.ts';
import { LiveHub } from '../../src/http/live-hub.ts';
import { fakeFarm, secondOf } from '../browser/support/fake-deps.ts';
import { FARM_NOW_MS } from '../browser/support/farm.ts';

interface Got {
  message: LiveMessage;
  id: string | undefined;
}

/**
 * What has come on a stream since it was last asked, message by message, each checked against its
 * shape.
 */
class Listener {
  #got: Got[] = [];
  #reader: ReadableStreamDefaultReader<Uint8Array>;

  constructor(stream: ReadableStream<Uint8Array>) {
    this.#reader = stream.getReader();
    void this.#read();
  }

  async #read(): Promise<void> {
    for (;;) {
      // oxlint-disable-next-line no-await-in-loop
      const { done, value } = await this.#reader.read();
      if (done) return;
      const blocks = new TextDecoder().decode(value).split('\n\n');
      this.#got.push(...blocks.filter((text) => text.includes('data: ')).map(parse));
    }
  }

  /** A turn of the event loop later, all that was sent has been read. */
  async take(): Promise<Got[]> {
    await new Promise((resolve) => setImmediate(resolve));
    return this.#got.splice(0);
  }

  async cancel(): Promise<void> {
    await this.#reader.cancel();
  }
}

function parse(block: string): Got {
  const field = (name: string) => new RegExp(`^${name}: (.*)$`, 'm').exec(block)?.[1];
  const message = liveShape.parse(JSON.parse(field('data') ?? ''));
  expect(field('event')).toBe(message.event);
  return { message, id: field('id') };
}

function open() {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
  const farm = fakeFarm();
  return { farm, hub: new LiveHub(farm.deps) };
}

const names = (got: Got[]) => got.map(({ message }) => message.event);

describe('LiveHub', () => {
  test('readings of a well come at most once a second, melted together, to who looks at that well', async () => {
    const { farm, hub } = open();
    const [one, all] = [new Listener(hub.open('orchard')), new Listener(hub.open())];
    await one.take();
    await all.take();
    for (let i = 0; i < 20; i += 1) farm.emit(secondOf('orchard', FARM_NOW_MS + i * 100));
    farm.emit(secondOf('mill-yard', FARM_NOW_MS));
    expect(await one.take()).toEqual([]);
    await hub.tick();
    const got = await one.take();
    expect(names(got)).toEqual(['readings', 'well']);
    const [first] = got;
    expect(
      first?.message.event === 'readings' && first.message.columns.map((c) => [c.channel, c.timesMs.length]),
    ).toEqual([
      ['current', 20],
      ['pressure', 20],
    ]);
    // Pressure in kPa, as charts have it.
    expect(first?.message.event === 'readings' && first.message.columns[1]?.values[0]).toBeCloseTo(444.5, 0);
    expect(names(await all.take())).toEqual([]);
    for (let i = 0; i < 4; i += 1) await hub.tick();
    expect(names(await all.take()).toSorted()).toEqual(['well', 'well']);
    hub.close();
  });

  test('a reading that could not be taken is null', async () => {
    const { farm, hub } = open();
    const one = new Listener(hub.open('orchard'));
    await one.take();
    farm.emit({
      is: 'readings',
      well: 'orchard',
      columns: [{ channel: 'current', timesMs: [1, 2], values: [Number.NaN, 3] }],
    });
    await hub.tick();
    const [readings] = await one.take();
    expect(readings?.message).toMatchObject({ columns: [{ values: [null, 3] }] });
    hub.close();
  });

  test('a viewer that comes back gets the alarm changes it missed, and only those', async () => {
    const { farm, hub } = open();
    const stay = hub.open();
    const first = new Listener(hub.open());
    const alarm = farm.alarms[0]!;
    farm.emit({ is: 'alarm', alarm });
    await hub.tick();
    const lastId = (await first.take()).at(-1)?.id;
    await first.cancel();
    farm.emit({ is: 'alarm', alarm: farm.alarms[1]! });
    farm.emit({ is: 'alarm', alarm: farm.alarms[2]! });
    const back = await new Listener(hub.open(undefined, lastId)).take();
    expect(names(back)).toEqual(['connected', 'alarm', 'alarm']);
    expect(back.map(({ message }) => (message.event === 'alarm' ? message.alarm.well : ''))).toEqual([
      '',
      'north-paddock',
      'mill-yard',
    ]);
    expect(back.at(-1)?.id).not.toBe(lastId);
    await stay.cancel();
    hub.close();
  });

  test('a viewer that comes back across a restart is told to ask anew', async () => {
    const { hub } = open();
    expect(names(await new Listener(hub.open(undefined, '12-3')).take())).toEqual(['connected', 'resync']);
    hub.close();
  });

  test('listens to the run loop only while somebody looks, and a minute longer', async () => {
    const { farm, hub } = open();
    expect(farm.subscribers()).toBe(0);
    const stream = hub.open();
    expect(farm.subscribers()).toBe(1);
    await stream.cancel();
    expect(hub.viewers).toBe(0);
    for (let i = 0; i < 60; i += 1) await hub.tick();
    expect(farm.subscribers()).toBe(1);
    await hub.tick();
    expect(farm.subscribers()).toBe(0);
  });

  test('a viewer that takes nothing is let go after 30 s, and holds a bounded amount until then', async () => {
    const { farm, hub } = open();
    hub.open('orchard');
    const columns = [
      {
        channel: 'current',
        timesMs: Float64Array.from({ length: 5_000 }, (_, i) => i),
        values: new Float64Array(5_000),
      },
    ];
    let ticks = 0;
    while (hub.viewers > 0 && ticks < 500) {
      farm.emit({ is: 'readings', well: 'orchard', columns });
      await hub.tick();
      ticks += 1;
    }
    expect(hub.viewers).toBe(0);
    // 256 KiB of messages of 600 points each are full after some tens of seconds; then 30 more.
    expect(ticks).toBeGreaterThan(31);
    hub.close();
  });

  test('a flood of alarms at a viewer that is slow ends its stream', () => {
    const { farm, hub } = open();
    hub.open();
    for (let i = 0; i < 201; i += 1) farm.emit({ is: 'alarm', alarm: farm.alarms[0]! });
    expect(hub.viewers).toBe(0);
    hub.close();
  });

  test('too many viewers are told so', () => {
    const { hub } = open();
    for (let i = 0; i < 200; i += 1) hub.open();
    expect(() => hub.open()).toThrow(/200 pages follow/);
    hub.close();
    expect(hub.viewers).toBe(0);
  });
});
