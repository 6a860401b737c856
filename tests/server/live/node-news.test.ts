/** Who is silent, since when, and whose fault it is not. */
import { describe, expect, it } from 'vitest';
import { helloText, HOUR, MINUTE, NOON, openRig, packText, times, type Rig } from './rig.ts';
import { useTestTimers } from './timers.ts';

useTestTimers();

/** An hour of packs, one a minute, of each of these nodes: their habits are known then. */
async function anHourOf(
  rig: Rig,
  nodes: readonly string[],
  hello: Record<string, unknown> = {},
): Promise<void> {
  for (const node of nodes) await rig.send(`wells/${node}/hello`, helloText(hello));
  const startMs = rig.nowMs();
  for (let seq = 1; seq <= 60; seq++) {
    await rig.wait(MINUTE, 10_000);
    for (const node of nodes) await speak(rig, node, startMs, seq);
  }
}

async function speak(rig: Rig, node: string, startMs: number, seq: number): Promise<void> {
  const fromMs = startMs + (seq - 1) * MINUTE;
  await rig.send(
    `wells/${node}/readings`,
    packText(node, { fromMs, everyS: 5, seq, current: times(12, 0.05) }),
  );
}

const cardOf = (well: string, more: Record<string, unknown> = {}): Record<string, unknown> => ({
  kind: 'card-changed',
  card: { well, site: 'home-farm', ...more },
});

describe('a silent node', () => {
  it('is told after longer than it ever is silent, and over when it speaks again', async () => {
    const rig = await openRig();
    await anHourOf(rig, ['barn']);
    await rig.wait(9 * MINUTE, 10_000);
    expect(await rig.alarms()).toEqual([]);
    await rig.wait(5 * MINUTE, 10_000);
    expect(await rig.alarms()).toMatchObject([
      { alarm: 'node-silent', well: 'barn', node: 'barn', sinceMs: NOON + HOUR, state: 'unacknowledged' },
    ]);
    await speak(rig, 'barn', NOON, 75);
    await rig.wait(3 * MINUTE, 10_000);
    expect((await rig.alarms())[0]?.clearedMs).toBeGreaterThan(NOON + HOUR);
    expect((await rig.notices()).map((notice) => notice.what)).toEqual(['raised', 'cleared']);
  });

  it('fed from the pump circuit is told as urgent', async () => {
    const rig = await openRig();
    await anHourOf(rig, ['barn'], { fedFrom: 'pump-circuit' });
    await rig.wait(20 * MINUTE, 10_000);
    expect(await rig.alarms('node-silent')).toMatchObject([
      { event: { priority: 'now', evidence: { fedFrom: 'pump-circuit' } } },
    ]);
  });

  it('that came back is over, also when the server was killed before it had told so', async () => {
    const rig = await openRig();
    await anHourOf(rig, ['barn']);
    await rig.wait(20 * MINUTE, 10_000);
    expect((await rig.alarms('node-silent')).length).toBe(1);
    await speak(rig, 'barn', NOON, 81);
    await rig.restart('killed');
    await rig.wait(5 * MINUTE, 10_000);
    expect((await rig.alarms('node-silent'))[0]?.clearedMs).toBeGreaterThan(NOON + HOUR);
  });

  it('is told once over any number of restarts', async () => {
    const rig = await openRig();
    await anHourOf(rig, ['barn']);
    await rig.wait(20 * MINUTE, 10_000);
    for (const how of ['killed', 'clean', 'killed'] as const) {
      await rig.restart(how);
      await rig.wait(20 * MINUTE, 10_000);
    }
    expect(await rig.alarms('node-silent')).toMatchObject([{ state: 'unacknowledged' }]);
    expect((await rig.notices()).length).toBe(1);
  });
});

describe('our own absence', () => {
  it.each(['killed', 'clean'] as const)('is nobody’s silence, but an act of its own (%s)', async (how) => {
    const rig = await openRig();
    await anHourOf(rig, ['barn']);
    await rig.restart(how, 5 * HOUR);
    await rig.wait(5 * MINUTE, 10_000);
    expect(await rig.alarms()).toEqual([]);
    const [away] = (await rig.store.acts({ fromMs: 0 })).filter((row) => row.kind === 'server-away');
    expect(away?.atMs).toBe(NOON + 6 * HOUR);
    // From our return on it may be silent as long as ever, and no longer.
    await rig.wait(20 * MINUTE, 10_000);
    expect((await rig.alarms('node-silent')).length).toBe(1);
  });

  it('of a minute is none', async () => {
    const rig = await openRig();
    await anHourOf(rig, ['barn']);
    await rig.restart('clean', MINUTE);
    expect(await rig.store.acts({ fromMs: 0 })).toEqual([]);
  });
});

describe('a silent site', () => {
  const NODES = ['barn', 'shed', 'mill'];

  async function site(): Promise<Rig> {
    const rig = await openRig();
    for (const well of NODES) await rig.live.applyAct(cardOf(well, well === 'mill' ? { use: 'stock' } : {}));
    await anHourOf(rig, NODES);
    return rig;
  }

  it('stands for its nodes, as urgent as the most urgent of them', async () => {
    const rig = await site();
    await rig.wait(30 * MINUTE, 10_000);
    expect(await rig.alarms()).toMatchObject([
      { alarm: 'site-silent', site: 'home-farm', sinceMs: NOON + HOUR, event: { priority: 'now' } },
    ]);
    expect((await rig.notices()).map((notice) => [notice.what, notice.body.event.alarm])).toEqual([
      ['raised', 'site-silent'],
    ]);
  });

  it('is seen by a person, who is named, over a restart too', async () => {
    const rig = await site();
    await rig.wait(30 * MINUTE, 10_000);
    const seen = { kind: 'acknowledged', well: 'home-farm', alarm: 'site-silent' };
    expect(await rig.live.applyAct(seen, 'Ada Quill')).toMatchObject({ done: true });
    await rig.wait(MINUTE, 10_000);
    const row = { state: 'acknowledged', acknowledgedBy: 'Ada Quill' };
    expect(await rig.alarms()).toMatchObject([row]);
    await rig.restart('killed');
    await rig.wait(MINUTE, 10_000);
    expect(await rig.alarms()).toMatchObject([row]);
    expect(await rig.live.applyAct({ ...seen, well: 'other-farm' })).toEqual({
      problem: 'Cannot do acknowledged: unknown well other-farm',
    });
  });

  it('is over when it speaks again, over a restart too', async () => {
    const rig = await site();
    await rig.wait(20 * MINUTE, 10_000);
    await rig.restart('killed');
    await rig.wait(MINUTE, 10_000);
    for (const node of NODES) await speak(rig, node, NOON, 82);
    await rig.wait(3 * MINUTE, 10_000);
    expect((await rig.alarms()).map((row) => [row.alarm, row.state, row.clearedMs !== undefined])).toEqual([
      ['site-silent', 'normal', true],
    ]);
    expect((await rig.notices()).map((notice) => notice.what)).toEqual(['raised', 'cleared']);
  });

  it('where one node alone is silent says that node, a little later than else', async () => {
    const rig = await site();
    for (let seq = 61; seq <= 90; seq++) {
      await rig.wait(MINUTE, 10_000);
      for (const node of ['barn', 'shed']) await speak(rig, node, NOON, seq);
    }
    expect((await rig.alarms()).map((row) => [row.alarm, row.well])).toEqual([['node-silent', 'mill']]);
  });
});

describe('news of a node', () => {
  it('that lost its power reaches the wells that read from it, and is kept', async () => {
    const rig = await openRig();
    await anHourOf(rig, ['barn']);
    await rig.send('wells/barn/presence', '"no-power"');
    await rig.wait(3 * MINUTE, 10_000);
    expect(await rig.alarms()).toMatchObject([{ alarm: 'power-lost', well: 'barn' }]);
    await rig.restart('killed');
    await rig.wait(3 * MINUTE, 10_000);
    expect(await rig.alarms()).toMatchObject([{ alarm: 'power-lost', state: 'unacknowledged' }]);
    expect((await rig.notices()).length).toBe(1);
  });
});
